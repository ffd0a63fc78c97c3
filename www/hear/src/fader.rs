//! A gain that changes without a click.

use stageohm::hear::Ramp;
use wasm_bindgen::JsValue;
use web_sys::{AudioContext, AudioNode, GainNode};

/// Browsers differ in what they say a gain is while it changes: so it is known here.
pub(crate) struct Fader {
    node: GainNode,
    ramp: Ramp,
}

impl Fader {
    /// One that begins with a factor, and leads on to a node.
    pub(crate) fn new(context: &AudioContext, factor: f64, onward: &AudioNode) -> Result<Self, JsValue> {
        let node = context.create_gain()?;
        node.gain().set_value(factor as f32);
        node.connect_with_audio_node(onward)?;
        Ok(Self { node, ramp: Ramp::still(factor) })
    }

    pub(crate) fn node(&self) -> &AudioNode {
        &self.node
    }

    /// Changes to a factor from now on, within so many seconds.
    pub(crate) fn fade(&mut self, to: f64, now: f64, lasts: f64) -> Result<(), JsValue> {
        let gain = self.node.gain();
        let ramp = self.ramp.onward(to, now, lasts);
        gain.cancel_scheduled_values(0.0)?;
        gain.set_value_at_time(ramp.at(now) as f32, now)?;
        let (to, ends) = ramp.end();
        gain.linear_ramp_to_value_at_time(to as f32, ends)?;
        self.ramp = ramp;
        Ok(())
    }

    pub(crate) fn disconnect(&self) {
        let _ = self.node.disconnect();
    }
}
