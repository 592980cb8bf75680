//! What one touch may do: no touch acts twice.
//!
//! When a pointer goes down and up, the browser makes a click of it, on whatever is under the finger by then. If the
//! screen has changed in between, that is something the player never aimed at. So a click counts only on the control on
//! which its touch began, and only if the touch has not already acted as it went down. A second knock of the same
//! knuckle on another control is a bounce.
//!
//! `C` identifies a control.

use crate::pulse::round::LEAST_BETWEEN;

/// How far, in px, a bouncing knuckle may land from its first knock. Common practice, no source: the width of two
/// fingers.
const BOUNCE_PX: f64 = 80.0;

/// What goes down on the glass.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "the names tell")]
pub enum PointerKind {
    Mouse,
    Touch,
    Pen,
}

/// A pointer as the browser reports it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pointer {
    /// The browser's number for it.
    pub id: i32,
    /// What it is.
    pub kind: PointerKind,
    /// The first of its kind that is down; no other is down when it goes down.
    pub primary: bool,
}

/// How a touch has acted, and when in ms.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Acted {
    /// As it went down, or as the bounce of one that acted.
    GoingDown(f64),
    /// By its click.
    Clicking(f64),
}

#[derive(Clone, Debug)]
struct Touch<C> {
    pointer: Pointer,
    on: Option<C>,
    /// Where it went down, in px of the screen.
    spot: (f64, f64),
    held: bool,
    acted: Option<Acted>,
}

/// The touches that are down, and those that a click may still come from.
#[derive(Clone, Debug)]
pub struct Touches<C> {
    touches: Vec<Touch<C>>,
}

impl<C> Default for Touches<C> {
    fn default() -> Self {
        Touches { touches: Vec::new() }
    }
}

impl<C: PartialEq> Touches<C> {
    /// A pointer goes down on a control, or on none, at `spot` (px) and `now` (ms).
    pub fn goes_down(&mut self, pointer: Pointer, on: Option<C>, spot: (f64, f64), now: f64) {
        let acted = self.touches.iter().any(|before| before.bounces(&on, spot, now)).then_some(Acted::GoingDown(now));
        self.touches.retain(|before| {
            let gone = pointer.primary && before.pointer.kind == pointer.kind;
            before.pointer.id != pointer.id && !gone
        });
        self.touches.push(Touch { pointer, on, spot, held: true, acted });
    }

    /// The pointer has acted as it went down.
    pub fn acts(&mut self, id: i32, now: f64) {
        self.of(id).into_iter().for_each(|touch| touch.acted = Some(Acted::GoingDown(now)));
    }

    /// The pointer goes up or is cancelled.
    pub fn comes_up(&mut self, id: i32) {
        self.of(id).into_iter().for_each(|touch| touch.held = false);
    }

    /// Whether a touch that goes down now may act at once: not while another that acted is still held.
    pub fn may_act(&self, id: i32) -> bool {
        !self.touches.iter().any(|other| other.pointer.id != id && other.held && other.acted.is_some())
    }

    /// Whether a click on a control may act. `id` is that of its pointer, if the browser gives one; a click without a
    /// known touch may act.
    pub fn may_click(&mut self, id: Option<i32>, on: Option<C>, now: f64) -> bool {
        let known = id.filter(|id| self.touches.iter().any(|touch| touch.pointer.id == *id));
        let touch = match known {
            Some(id) => self.of(id),
            None => self.touches.last_mut(),
        };
        let Some(touch) = touch else { return true };
        let may = touch.on == on && !matches!(touch.acted, Some(Acted::GoingDown(_)));
        if may && on.is_some() {
            touch.acted = Some(Acted::Clicking(now));
        }
        may
    }

    fn of(&mut self, id: i32) -> Option<&mut Touch<C>> {
        self.touches.iter_mut().find(|touch| touch.pointer.id == id)
    }
}

impl<C: PartialEq> Touch<C> {
    /// Whether a touch on another control comes so soon and so near that it is the same knock again.
    fn bounces(&self, on: &Option<C>, spot: (f64, f64), now: f64) -> bool {
        let Some(Acted::GoingDown(at) | Acted::Clicking(at)) = self.acted else { return false };
        let near = (self.spot.0 - spot.0).hypot(self.spot.1 - spot.1) <= BOUNCE_PX;
        near && now - at < 1000.0 * LEAST_BETWEEN && self.on != *on
    }
}
