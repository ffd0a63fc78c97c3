//! Whether the sound still goes where it went: headphones that are pulled out must not
//! leave it on a loudspeaker.

use crate::player::{Player, later};
use std::cell::RefCell;
use std::rc::{Rc, Weak};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{EventTarget, window};

type Shared = Rc<RefCell<Player>>;

/// A sound that has not begun by then is held back, ms: an output that wakes up takes
/// less (judgement).
pub(crate) const WAIT: i32 = 1500;

/// Comes after so many milliseconds.
pub(crate) fn waiting(ms: i32) -> js_sys::Promise {
    js_sys::Promise::new(&mut |done, _| {
        later(&done, ms);
    })
}

/// Listeners, for as long as it is kept.
pub(crate) struct Watch {
    devices: Option<EventTarget>,
    device: Closure<dyn FnMut()>,
    /// Kept, since the browser calls it.
    _state: Closure<dyn FnMut()>,
}

impl Watch {
    pub(crate) fn new(player: &Shared) -> Self {
        let of = |what: fn(&Shared)| {
            let player: Weak<_> = Rc::downgrade(player);
            Closure::<dyn FnMut()>::new(move || {
                if let Some(player) = player.upgrade() {
                    what(&player);
                }
            })
        };
        let device = of(|player| lost(player, "hear-lost"));
        let state = of(changed);
        if let Ok(player) = player.try_borrow() {
            player.context.set_onstatechange(Some(state.as_ref().unchecked_ref()));
        }
        // A page from disk may have no devices to ask.
        let devices = window()
            .and_then(|window| window.navigator().media_devices().ok())
            .map(JsValue::from)
            .filter(JsValue::is_object)
            .map(JsCast::unchecked_into::<EventTarget>);
        if let Some(devices) = &devices {
            let _ = devices.add_event_listener_with_callback("devicechange", device.as_ref().unchecked_ref());
        }
        Self { devices, device, _state: state }
    }

    pub(crate) fn end(&self, player: &Shared) {
        if let Some(devices) = &self.devices {
            let _ = devices.remove_event_listener_with_callback("devicechange", self.device.as_ref().unchecked_ref());
        }
        if let Ok(player) = player.try_borrow() {
            player.context.set_onstatechange(None);
        }
    }
}

/// One browser has a state more: interrupted, by a call or another app.
fn changed(player: &Shared) {
    let state = player.try_borrow().ok().and_then(|player| {
        js_sys::Reflect::get(&player.context, &"state".into()).ok().and_then(|state| state.as_string())
    });
    match state.as_deref() {
        Some("running") => runs(player),
        None => {}
        Some(_) if !player.try_borrow().is_ok_and(|player| player.runs) => {}
        Some("interrupted") => lost(player, "hear-interrupted"),
        Some(_) => lost(player, "hear-lost"),
    }
}

/// Notes that the sound is on its way.
pub(crate) fn runs(player: &Shared) {
    if let Ok(mut player) = player.try_borrow_mut() {
        player.runs = player.is_playing();
    }
}

/// Ends at once, and tells so.
pub(crate) fn lost(player: &Shared, why: &str) {
    let told = player.try_borrow_mut().ok().filter(|player| player.is_playing()).and_then(|mut player| {
        player.silence();
        player.told.clone()
    });
    if let Some(told) = told {
        let _ = told.call1(&JsValue::NULL, &why.into());
    }
}
