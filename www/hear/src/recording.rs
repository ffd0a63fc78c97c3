//! A recording that somebody brings.

use crate::key;
use stageohm::hear::{LONGEST, NoLoop, loop_of};
use wasm_bindgen::JsValue;
use web_sys::{AudioBuffer, AudioContext};

/// What the browser makes of the bytes of a file, in a while.
pub(crate) fn decoding(context: &AudioContext, bytes: &js_sys::Uint8Array) -> Result<js_sys::Promise, JsValue> {
    context.decode_audio_data(&bytes.buffer()).map_err(|_| key("hear-recording"))
}

/// All channels of a recording together, as a loop; the first alone where they cancel, as
/// those of opposite polarity do.
pub(crate) fn loop_in(decoded: &AudioBuffer) -> Result<Vec<f64>, JsValue> {
    if decoded.duration() > LONGEST + 0.1 {
        return Err(key("hear-recording-long"));
    }
    let channels = decoded.number_of_channels();
    let rate = f64::from(decoded.sample_rate());
    let mut samples = vec![0_f32; decoded.length() as usize];
    for n in 0..channels {
        for (sample, more) in samples.iter_mut().zip(decoded.get_channel_data(n)?) {
            *sample += more / channels as f32;
        }
    }
    let together = match loop_of(&samples, rate) {
        Err(NoLoop::Silent) if channels > 1 => loop_of(&decoded.get_channel_data(0)?, rate),
        other => other,
    };
    together.map_err(|why| {
        key(match why {
            NoLoop::Unreadable => "hear-recording",
            NoLoop::Short => "hear-recording-short",
            NoLoop::Long => "hear-recording-long",
            NoLoop::Silent => "hear-recording-silent",
        })
    })
}
