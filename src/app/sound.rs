//! The page's one sound: opened in the first tap, because browsers keep a page silent until then.

use crate::{
    app::device::audio::Audio,
    pulse::{Metronome, Schedule},
};
use std::{cell::RefCell, rc::Rc};
use yew::prelude::*;

/// The pulse of a snippet, on the page's sound.
pub type Conductor = Schedule<Rc<Audio>>;

/// A plain pulse, on the page's sound.
pub type PlainPulse = Metronome<Rc<Audio>>;

/// The sound of the page, open or not yet.
#[derive(Clone, Default)]
pub struct Sound(Rc<RefCell<Option<Rc<Audio>>>>);

impl PartialEq for Sound {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

impl Sound {
    /// The sound, opened now if it was not or had fallen asleep; to be called in a tap.
    pub fn opened(&self) -> Rc<Audio> {
        let audio = self.0.borrow_mut().get_or_insert_with(|| Rc::new(Audio::open())).clone();
        audio.wake();
        audio
    }

    /// Seconds from the clock to the ear.
    pub fn latency(&self) -> f64 {
        self.0.borrow().as_ref().map_or(0.0, |audio| audio.latency())
    }

    /// Rings the bell, if the sound has been opened.
    pub fn ring(&self) {
        if let Some(audio) = &*self.0.borrow() {
            audio.ring();
        }
    }
}

/// The sound of the page.
#[hook]
pub fn use_sound() -> Sound {
    use_context::<Sound>().expect("every screen has the page's sound")
}
