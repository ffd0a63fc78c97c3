//! What is played, and how it comes and goes.

use crate::fader::Fader;
use crate::key;
use crate::pair::Pair;
use stageohm::hear::{FADE, Rendered, STOP, SWITCH};
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;
use web_sys::{AudioBuffer, AudioContext, AudioContextOptions, AudioContextState};

/// The rate asked for, Hz: what is rendered is then as exact on every machine.
const RATE: f32 = 48e3;
/// The quietest and the loudest volume, dB: it only ever goes down.
const VOLUMES: (f64, f64) = (-40.0, 0.0);

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(js_name = setTimeout)]
    pub(crate) fn later(what: &js_sys::Function, ms: i32) -> i32;
}

pub(crate) struct Player {
    pub(crate) context: AudioContext,
    /// Quieter, as the listener has it.
    volume: Fader,
    /// From silence and back.
    whole: Fader,
    /// Two banks of two buffers: while one is heard the other is filled.
    banks: [Option<[AudioBuffer; 2]>; 2],
    bank: usize,
    side: usize,
    pair: Option<Pair>,
    leaving: Option<Pair>,
    /// Whether the sound has been on its way since it was last asked for: until then the
    /// browser may still be going to rest from before.
    pub(crate) runs: bool,
    /// How often it has been asked for.
    pub(crate) asked: u32,
    /// Whom to tell that the sound is gone.
    pub(crate) told: Option<js_sys::Function>,
}

impl Player {
    pub(crate) fn new() -> Result<Self, JsValue> {
        if !js_sys::Reflect::get(&js_sys::global(), &"AudioContext".into()).is_ok_and(|made| made.is_function()) {
            return Err(key("hear-none"));
        }
        let options = AudioContextOptions::new();
        options.set_sample_rate(RATE);
        let context = AudioContext::new_with_context_options(&options)
            .or_else(|_| AudioContext::new())
            .map_err(|_| key("hear-refused"))?;
        let made = || -> Result<_, JsValue> {
            let volume = Fader::new(&context, 1.0, &context.destination())?;
            let whole = Fader::new(&context, 0.0, volume.node())?;
            Ok((volume, whole))
        };
        let (volume, whole) = made().map_err(|_| {
            end(&context);
            key("hear-refused")
        })?;
        let banks = [None, None];
        Ok(Self {
            context,
            volume,
            whole,
            banks,
            bank: 0,
            side: 0,
            pair: None,
            leaving: None,
            runs: false,
            asked: 0,
            told: None,
        })
    }

    pub(crate) fn rate(&self) -> f64 {
        f64::from(self.context.sample_rate())
    }

    pub(crate) fn is_playing(&self) -> bool {
        self.pair.is_some()
    }

    fn now(&self) -> f64 {
        self.context.current_time()
    }

    /// Takes what is to be heard; what plays goes on with it.
    pub(crate) fn bring(&mut self, sides: [&Rendered; 2]) -> Result<(), JsValue> {
        self.drop_leaving();
        let next = 1 - self.bank;
        let length = sides[0].samples.len() as u32;
        if self.banks[next].as_ref().is_none_or(|bank| bank[0].length() != length) {
            let make = || self.context.create_buffer(1, length, self.context.sample_rate());
            self.banks[next] = Some([make()?, make()?]);
        }
        if let Some(bank) = &self.banks[next] {
            for (buffer, side) in bank.iter().zip(sides) {
                buffer.copy_to_channel(&side.samples, 0)?;
            }
        }
        self.bank = next;
        if let Some(mut pair) = self.pair.take() {
            let now = self.now();
            let since = pair.since(now);
            pair.leave(now)?;
            self.leaving = Some(pair);
            self.start(now, since, SWITCH)?;
        }
        Ok(())
    }

    fn start(&mut self, now: f64, since: f64, lasts: f64) -> Result<(), JsValue> {
        let Some([a, b]) = &self.banks[self.bank] else { return Err(key("hear-nothing")) };
        let mut pair = Pair::start(&self.context, [a, b], self.whole.node(), [now, since])?;
        pair.hear(Some(self.side), now, lasts)?;
        self.pair = Some(pair);
        Ok(())
    }

    /// Plays from the beginning, out of silence.
    pub(crate) fn play(&mut self, side: usize) -> Result<js_sys::Promise, JsValue> {
        self.asked = self.asked.wrapping_add(1);
        if self.pair.is_some() {
            self.switch_to(side)?;
        } else {
            self.drop_leaving();
            self.runs = false;
            self.side = side;
            let now = self.now();
            self.start(now, 0.0, 0.0)?;
            self.whole.fade(0.0, now, 0.0)?;
            self.whole.fade(1.0, now, FADE)?;
        }
        self.context.resume().map_err(|_| key("hear-refused"))
    }

    pub(crate) fn switch_to(&mut self, side: usize) -> Result<(), JsValue> {
        self.side = side;
        let now = self.now();
        self.pair.as_mut().map_or(Ok(()), |pair| pair.hear(Some(side), now, SWITCH))
    }

    /// Fades out; whether it has to rest once it has.
    pub(crate) fn stop(&mut self) -> bool {
        let Some(pair) = self.pair.take() else { return false };
        self.drop_leaving();
        let now = self.now();
        let faded = self.whole.fade(0.0, now, STOP).and_then(|()| pair.end(now + STOP));
        self.leaving = Some(pair);
        if faded.is_err() {
            self.silence();
        }
        faded.is_ok()
    }

    /// What has been stopped is taken apart, unless it plays again.
    pub(crate) fn rest(&mut self) {
        if self.pair.is_none() {
            self.silence();
        }
    }

    /// Ends at once.
    pub(crate) fn silence(&mut self) {
        self.drop_leaving();
        if let Some(pair) = self.pair.take() {
            pair.disconnect();
        }
        if self.context.state() == AudioContextState::Running {
            let _ = self.context.suspend();
        }
    }

    pub(crate) fn volume(&mut self, level: f64) {
        let level = if level.is_nan() { VOLUMES.0 } else { level.clamp(VOLUMES.0, VOLUMES.1) };
        let now = self.now();
        let _ = self.volume.fade(10_f64.powf(level / 20.0), now, SWITCH);
    }

    fn drop_leaving(&mut self) {
        if let Some(pair) = self.leaving.take() {
            pair.disconnect();
        }
    }
}

/// Gives the output back; one that has gone of itself is not there to be given back.
pub(crate) fn end(context: &AudioContext) {
    if context.state() != AudioContextState::Closed {
        let _ = context.close();
    }
}
