//! Two loops that run side by side, of which one is heard.

use crate::fader::Fader;
use stageohm::hear::SWITCH;
use wasm_bindgen::JsValue;
use web_sys::{AudioBuffer, AudioBufferSourceNode, AudioContext, AudioNode, AudioScheduledSourceNode};

pub(crate) struct Pair {
    sources: [AudioBufferSourceNode; 2],
    gains: [Fader; 2],
    /// When its loops began, or would have, s.
    began: f64,
}

impl Pair {
    /// Starts two loops so many seconds after their beginning; neither is heard yet.
    pub(crate) fn start(
        context: &AudioContext,
        buffers: [&AudioBuffer; 2],
        onward: &AudioNode,
        [now, since]: [f64; 2],
    ) -> Result<Self, JsValue> {
        let gains = [Fader::new(context, 0.0, onward)?, Fader::new(context, 0.0, onward)?];
        let sources = [context.create_buffer_source()?, context.create_buffer_source()?];
        for ((source, buffer), gain) in sources.iter().zip(buffers).zip(&gains) {
            source.set_buffer(Some(buffer));
            source.set_loop(true);
            source.connect_with_audio_node(gain.node())?;
        }
        let since = since.rem_euclid(buffers[0].duration().max(f64::MIN_POSITIVE));
        for source in &sources {
            source.start_with_when_and_grain_offset(now, since)?;
        }
        Ok(Self { sources, gains, began: now - since })
    }

    /// How long its loops have gone on, s.
    pub(crate) fn since(&self, now: f64) -> f64 {
        now - self.began
    }

    /// Lets one of them be heard, or none.
    pub(crate) fn hear(&mut self, side: Option<usize>, now: f64, lasts: f64) -> Result<(), JsValue> {
        for (n, gain) in self.gains.iter_mut().enumerate() {
            gain.fade(if side == Some(n) { 1.0 } else { 0.0 }, now, lasts)?;
        }
        Ok(())
    }

    /// Fades out and ends.
    pub(crate) fn leave(&mut self, now: f64) -> Result<(), JsValue> {
        self.hear(None, now, SWITCH)?;
        self.end(now + SWITCH)
    }

    /// Ends at a time, s.
    pub(crate) fn end(&self, at: f64) -> Result<(), JsValue> {
        self.sources
            .iter()
            .map(AsRef::<AudioScheduledSourceNode>::as_ref)
            .try_for_each(|source| source.stop_with_when(at))
    }

    /// Takes it apart: what it held may be used again.
    pub(crate) fn disconnect(&self) {
        for (source, gain) in self.sources.iter().zip(&self.gains) {
            // One that has not begun cannot end.
            let _ = AsRef::<AudioScheduledSourceNode>::as_ref(source).stop();
            let _ = source.disconnect();
            source.set_buffer(None);
            gain.disconnect();
        }
    }
}
