//! Plays what two rigs sound like, in a loop, the one or the other: the only place of
//! Stageohm that touches the browser's audio.
//!
//! What is thrown is the key of a message: nobody but the page has the words.

mod fader;
mod pair;
mod player;
mod recording;
mod watch;

use player::{Player, end};
use serde::Serialize;
use serde_wasm_bindgen::{Serializer, from_value};
use stageohm::hear::{Instrument, STOP, Side, SideHeard, hardly_apart, render};
use std::cell::{RefCell, RefMut};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};
use wasm_bindgen_futures::{JsFuture, future_to_promise, spawn_local};
use watch::{WAIT, Watch, lost, runs, waiting};

/// A page has one thread and small needs: the standard allocator is larger and slower there.
#[cfg(target_arch = "wasm32")]
#[global_allocator]
static ALLOCATOR: talc::wasm::WasmDynamicTalc = talc::wasm::new_wasm_dynamic_allocator();

/// What is played through the rigs; an instrument until a recording is brought.
type Source = Rc<RefCell<(Instrument, Option<Vec<f64>>)>>;

/// Two rigs to switch between.
#[wasm_bindgen]
pub struct Hearing {
    player: Rc<RefCell<Player>>,
    watch: Watch,
    source: Source,
}

/// Figures of both, as they are told to the page.
#[derive(Serialize)]
struct Heard {
    a: SideHeard,
    b: SideHeard,
    seconds: f64,
    /// Whether hardly anybody would hear a difference.
    unheard: bool,
}

#[wasm_bindgen]
impl Hearing {
    /// Opens the way to the loudspeaker; to be called in a press.
    ///
    /// # Errors
    /// `hear-none` where there is no audio, `hear-refused` where it is not to be had.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Result<Self, JsValue> {
        let player = Rc::new(RefCell::new(Player::new()?));
        let watch = Watch::new(&player);
        Ok(Self { player, watch, source: Rc::new(RefCell::new((Instrument::Bass, None))) })
    }

    /// Whether something is played.
    #[wasm_bindgen(getter)]
    pub fn playing(&self) -> bool {
        self.player.try_borrow().is_ok_and(|player| player.is_playing())
    }

    /// Chooses what is played from the next rendering on.
    ///
    /// # Errors
    /// Where there is none of this name.
    pub fn source(&self, kind: JsValue) -> Result<(), JsValue> {
        let kind: Instrument = from_value(kind)?;
        let mut source = self.source.try_borrow_mut().map_err(|_| busy())?;
        *source = (kind, None);
        Ok(())
    }

    /// Plays a recording from the next rendering on, from the bytes of its file.
    pub fn recording(&self, bytes: &js_sys::Uint8Array) -> js_sys::Promise {
        let (player, source) = (Rc::clone(&self.player), Rc::clone(&self.source));
        let bytes = bytes.slice(0, bytes.length());
        future_to_promise(async move {
            let decoding = {
                let player = player.try_borrow().map_err(|_| busy())?;
                recording::decoding(&player.context, &bytes)?
            };
            let decoded = JsFuture::from(decoding).await.map_err(|_| key("hear-recording"))?;
            let samples = recording::loop_in(&decoded.unchecked_into())?;
            source.try_borrow_mut().map_err(|_| busy())?.1 = Some(samples);
            Ok(JsValue::UNDEFINED)
        })
    }

    /// Renders two rigs; what plays goes on with them.
    ///
    /// # Errors
    /// Where the rigs are not of the shape of the contract, and where there is no memory
    /// for what is to be played.
    pub fn sides(&self, a: JsValue, b: JsValue, ways: JsValue) -> Result<JsValue, JsValue> {
        let (a, b, ways): (Side, Side, _) = (from_value(a)?, from_value(b)?, from_value(ways)?);
        let rigs = [&a, &b];
        let mut player = self.player()?;
        let rate = player.rate();
        let mut source = self.source.try_borrow_mut().map_err(|_| busy())?;
        let kind = source.0;
        let samples = source.1.get_or_insert_with(|| kind.samples(rate));
        let [a, b] = render(samples, rate, rigs, ways);
        player.bring([&a, &b]).map_err(|_| key("hear-refused"))?;
        let unheard = hardly_apart(rigs, [a.heard.gain, b.heard.gain], ways);
        let heard = Heard { a: a.heard, b: b.heard, seconds: a.samples.len() as f64 / rate, unheard };
        Ok(heard.serialize(&Serializer::new().serialize_missing_as_null(true))?)
    }

    /// Fades in; what plays goes on with this side.
    ///
    /// # Errors
    /// `hear-nothing` where nothing has been rendered, `hear-refused` where the browser
    /// has no sound. Who is told of an end is told `hear-held` where it does not begin.
    pub fn play(&self, side: &str) -> Result<(), JsValue> {
        let (resumed, asked) = {
            let mut player = self.player()?;
            (player.play(number(side))?, player.asked)
        };
        let player = Rc::clone(&self.player);
        let is_newest = move |player: &RefCell<Player>| player.try_borrow().is_ok_and(|player| player.asked == asked);
        let watched = Rc::clone(&player);
        spawn_local(async move {
            match JsFuture::from(resumed).await {
                Ok(_) => runs(&watched),
                Err(_) if is_newest(&watched) => lost(&watched, "hear-refused"),
                Err(_) => {}
            }
        });
        // A browser that holds sound back says nothing: what it was asked for stays open.
        spawn_local(async move {
            let waited = JsFuture::from(waiting(WAIT)).await.is_ok();
            if waited && is_newest(&player) && !player.try_borrow().is_ok_and(|player| player.runs) {
                lost(&player, "hear-held");
            }
        });
        Ok(())
    }

    /// Changes to the other side, or to the one that is played next.
    ///
    /// # Errors
    /// `hear-refused` where the browser does not go on.
    #[wasm_bindgen(js_name = switchTo)]
    pub fn switch_to(&self, side: &str) -> Result<(), JsValue> {
        self.player()?.switch_to(number(side)).map_err(|_| key("hear-refused"))
    }

    /// Fades out.
    pub fn stop(&self) {
        let fading = self.player().ok().and_then(|mut player| player.stop().then_some(player.asked));
        let Some(asked) = fading else { return };
        let player = Rc::downgrade(&self.player);
        spawn_local(async move {
            let waited = JsFuture::from(waiting((2e3 * STOP) as i32)).await.is_ok();
            // It may have been given back meanwhile, or play again.
            let Some(player) = player.upgrade().filter(|_| waited) else { return };
            if let Ok(mut player) = player.try_borrow_mut()
                && player.asked == asked
            {
                player.rest();
            }
        });
    }

    /// The volume, dB: 0 at most, −40 at least.
    pub fn volume(&self, level: f64) {
        if let Ok(mut player) = self.player() {
            player.volume(level);
        }
    }

    /// Whom to tell, by the key of a message, that the sound has gone of itself.
    #[wasm_bindgen(js_name = onStopped)]
    pub fn on_stopped(&self, callback: js_sys::Function) {
        if let Ok(mut player) = self.player() {
            player.told = Some(callback);
        }
    }

    fn player(&self) -> Result<RefMut<'_, Player>, JsValue> {
        self.player.try_borrow_mut().map_err(|_| busy())
    }
}

impl Drop for Hearing {
    fn drop(&mut self) {
        self.watch.end(&self.player);
        if let Ok(mut player) = self.player.try_borrow_mut() {
            player.silence();
            end(&player.context);
        }
    }
}

/// The number of a side.
fn number(side: &str) -> usize {
    usize::from(side == "b")
}

/// The key of a message.
fn key(key: &str) -> JsValue {
    JsValue::from_str(key)
}

/// Asked from within an answer, which a page does not do.
fn busy() -> JsValue {
    key("hear-refused")
}
