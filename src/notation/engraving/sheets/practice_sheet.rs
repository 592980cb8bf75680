//! The sheet that is practised from: a whole snippet laid out once for a screen, and each step drawn on it.
//!
//! Sizes and places come from the snippet and the screen alone, so that nothing moves from step to step. A staff is
//! never made smaller than can be read. What does not fit the height takes turns: while one system is played the next
//! one is in view, and what has been played makes room for what follows, each in a place of its own.

use crate::{
    music::{Part, Quarters},
    notation::{
        drawing::Ink,
        engraving::{
            prepared::galley::Galley,
            sheets::{
                focus::Focus,
                sheet::{OnsetPlace, Sheet},
                system::EngravedSystem,
            },
            signs::engraver::SystemPlan,
            spaced::{
                columns::{Column, columns},
                line_breaks::{MARGIN, Row, TAIL, breaks, prefix, row, wrapped},
                springs::Springs,
            },
        },
    },
};
use std::ops::Range;

/// The room for a sheet, in px.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// In px.
    pub width: f32,
    /// In px.
    pub height: f32,
    /// The least distance of two staff lines.
    pub least: f32,
    /// Size of text where it is smallest.
    pub text: f32,
}

impl Room {
    /// Least distance of two staff lines from 70 cm and on a phone, which is held nearer (common practice, no
    /// source: printed piano music has 1.75 to 2 mm, 6.6 to 7.6 px, at 50 to 60 cm and no second look).
    pub const LEAST_ON_A_TABLET: f32 = 14.0;
    /// The same on a phone, in px.
    pub const LEAST_ON_A_PHONE: f32 = 11.0;
    /// Least size of text: a digit of about 22 arcminutes at 60 cm (ISO 9241-3, quoted by NUREG-0700); on a phone of 16,
    /// the least that it allows.
    pub const TEXT_ON_A_TABLET: f32 = 24.6;
    /// The same on a phone, in px.
    pub const TEXT_ON_A_PHONE: f32 = 18.0;
    /// A screen whose shorter side is less than this, in px, is a phone.
    const PHONE: f32 = 500.0;

    /// Size of text beside staves of this space, in staff spaces.
    fn text_beside(&self, space: f32) -> f32 {
        (self.text / space).clamp(TEXT_LEAST, TEXT_MOST)
    }

    /// The room of `width` × `height` px on a screen.
    pub fn on_screen((width, height): (f32, f32), (across, down): (f32, f32)) -> Room {
        let is_phone = across.min(down) < Room::PHONE;
        let (least, text) = match is_phone {
            true => (Room::LEAST_ON_A_PHONE, Room::TEXT_ON_A_PHONE),
            false => (Room::LEAST_ON_A_TABLET, Room::TEXT_ON_A_TABLET),
        };
        Room { width, height, least, text }
    }
}

/// The least width and height that is laid out for, in px: chosen.
const LEAST_WIDTH: f32 = 60.0;
const LEAST_HEIGHT: f32 = 40.0;
/// Largest staff space, in px: chosen, as what follows.
const LARGEST: f32 = 26.0;
/// The limits of the size of text, in staff spaces.
const TEXT_LEAST: f32 = 1.3;
const TEXT_MOST: f32 = 2.6;
/// Up to this size of text each bar is numbered: where it is larger, numbers would stand among fingerings.
const MANY_NUMBERS: f32 = 1.9;
/// Over a system, for a roof over whatever is highest.
const CROWN: f32 = 1.6;
/// How far springs are pressed before a system is broken or made smaller, and stretched at most.
const PRESSED: f32 = 0.75;
const STRETCHED: f32 = 2.4;
/// How often a larger size is looked for.
const TRIES: usize = 6;
/// Between systems that stand side by side, and how wide each is at least, in staff spaces.
const BESIDE: f32 = 2.0;
const LEAST_BESIDE: f32 = 22.0;

/// One system: its columns, and the room it takes whatever is played of it.
struct System {
    /// By their index in the part.
    bars: Range<usize>,
    columns: Vec<Column>,
    width: f32,
    meter: bool,
    /// As [`EngravedSystem`] has them.
    tops: Vec<f32>,
    top: f32,
    bottom: f32,
}

impl System {
    fn height(&self) -> f32 {
        self.bottom - self.top
    }

    fn starts(&self) -> Quarters {
        self.columns.iter().find(|column| column.is_notes()).map_or(Quarters::ZERO, |column| column.at)
    }
}

/// Where a system may stand, in px.
#[derive(Clone, Copy)]
struct Slot {
    left: f32,
    top: f32,
    width: f32,
    height: f32,
}

/// A snippet laid out for a room.
pub struct Layout {
    systems: Vec<System>,
    slots: Vec<Slot>,
    space: f32,
    /// Size of text, in staff spaces.
    text: f32,
    width: f32,
    height: f32,
    /// The height of one system at the smallest size, in px: no room should be lower.
    pub least_height: f32,
}

impl Layout {
    /// Lays a part (a cut of a few bars) out.
    pub fn new(part: &Part, room: Room) -> Layout {
        let room = Room { width: room.width.max(LEAST_WIDTH), height: room.height.max(LEAST_HEIGHT), ..room };
        let galley = Galley::new(part, 0..part.bars.len());
        let all = columns(&galley, room.text_beside(room.least));
        if !all.iter().any(Column::is_notes) {
            return Layout::of(SheetDraft { systems: Vec::new(), space: room.least }, Vec::new(), room);
        }
        let springs = Springs::of(&all);
        let mut press = Press { breaks: breaks(&galley, &all), galley: &galley, all, springs, room };
        press.lay_out()
    }

    fn of(draft: SheetDraft, slots: Vec<Slot>, room: Room) -> Layout {
        let SheetDraft { systems, space } = draft;
        let needed = slots.iter().map(|slot| slot.top + slot.height).fold(room.height, f32::max);
        Layout {
            systems,
            slots,
            space,
            text: room.text_beside(space),
            width: room.width,
            height: needed,
            least_height: 0.0,
        }
    }

    /// Draws a step.
    pub fn draw(&self, part: &Part, focus: &Focus) -> StepSheet {
        let mut sheet = StepSheet {
            width: self.width,
            height: self.height,
            space: self.space,
            systems: Vec::new(),
            slots: self.slots.len(),
        };
        let Some(shown) = self.shown(focus) else { return sheet };
        let bars = self.systems[shown.start].bars.start..self.systems[shown.end - 1].bars.end;
        let galley = Galley::with_cues(part, bars.clone(), &|staff| !focus.plays_on(staff));
        for (nth, system) in self.systems[shown].iter().enumerate() {
            let slot = self.slots[nth % self.slots.len()];
            sheet.systems.push(self.system(&galley, system, bars.start, slot, focus));
        }
        sheet
    }

    /// The systems of a step: those of its span, with what leads to it as far as there is room.
    fn shown(&self, focus: &Focus) -> Option<Range<usize>> {
        let last = focus.onsets.len().checked_sub(1)?;
        let system = |onset: usize| {
            let at = focus.onsets[onset.min(last)];
            self.systems.partition_point(|system| system.starts() <= at).saturating_sub(1)
        };
        let (first, last) = (system(focus.span.0), system(focus.span.1.max(focus.span.0)));
        let slots = self.slots.len();
        let count = self.systems.len();
        (count > 0).then(|| {
            let start = first.min((last + 1).saturating_sub(slots));
            start..(last + 1).max(start + slots).min(count)
        })
    }

    fn system(&self, galley: &Galley, system: &System, first_bar: usize, slot: Slot, focus: &Focus) -> Sheet {
        let space = self.space;
        let columns: Vec<Column> = system.columns.iter().map(|column| column.among_bars_from(first_bar)).collect();
        let plan = SystemPlan {
            galley,
            columns: &columns,
            width: system.width,
            inks: &|at, staff, tied| focus.ink(at, staff, tied),
            plays: &|staff| focus.plays_on(staff),
            text: self.text,
            meter: system.meter,
            number_all: self.text < MANY_NUMBERS,
            crowns: &focus.crowns(),
            tops: &system.tops,
        };
        let set = plan.engrave().within(system.top, system.bottom);
        let left = slot.left + 0.5 * (slot.width - space * system.width).max(0.0);
        let top = slot.top + 0.5 * (slot.height - space * system.height()).max(0.0);
        let mut sheet = Sheet::new(self.width, self.height, space);
        sheet.add(&set, &columns, focus.onsets, (left, top), |bar| first_bar + bar);
        sheet
    }
}

/// A step drawn: the systems that take part, some of them in one and the same place, where they take turns.
#[derive(Clone, Debug, PartialEq)]
pub struct StepSheet {
    /// In px.
    pub width: f32,
    /// In px, of what is in view at a time.
    pub height: f32,
    /// Px of a staff space.
    pub space: f32,
    /// In the order in which they are played, at least one.
    pub systems: Vec<Sheet>,
    /// How many systems are in view at a time.
    slots: usize,
}

impl StepSheet {
    /// The system in which an onset stands, and its place there.
    pub fn place(&self, onset: usize) -> Option<(usize, OnsetPlace)> {
        self.systems.iter().enumerate().find_map(|(index, sheet)| Some((index, sheet.place(onset)?)))
    }

    /// The systems in view while one is played: that one, those that follow, and while there is room those before.
    pub fn in_view(&self, played: usize) -> Range<usize> {
        let end = (played + self.slots).min(self.systems.len());
        end.saturating_sub(self.slots)..end
    }
}

/// Systems at one size.
struct SheetDraft {
    systems: Vec<System>,
    space: f32,
}

impl SheetDraft {
    /// Of all systems below one another, and of the highest, in px.
    fn height(&self) -> f32 {
        self.space * self.systems.iter().map(System::height).sum::<f32>()
    }

    fn highest(&self) -> f32 {
        self.space * self.systems.iter().map(System::height).fold(0.0, f32::max)
    }
}

/// The columns of a part, and what is tried with them.
struct Press<'a> {
    galley: &'a Galley<'a>,
    all: Vec<Column>,
    springs: Springs,
    /// Whether a system may begin with a column.
    breaks: Vec<bool>,
    room: Room,
}

impl Press<'_> {
    fn lay_out(&mut self) -> Layout {
        let Room { width, height, least, .. } = self.room;
        let small = self.draft(least, width);
        let least_height = small.highest();
        let rows = (height / least_height) as usize;
        let layout = if small.systems.len() == 1 || small.height() <= height {
            let whole = self.larger(small, width, |draft| draft.height() <= height);
            let slots = below_one_another(&whole, self.room);
            Layout::of(whole, slots, self.room)
        } else if rows > 1 {
            let turning = self.larger(small, width, |draft| rows as f32 * draft.highest() <= height);
            Layout::of(turning, grid(1, rows, least_height, self.room), self.room)
        } else {
            let half = 0.5 * (width - BESIDE * least);
            let across = if half < LEAST_BESIDE * least { 1 } else { 2 };
            let small = if across == 1 { small } else { self.draft(least, half) };
            let highest = small.highest();
            Layout::of(small, grid(across, 1, highest, self.room), self.room)
        };
        Layout { least_height, ..layout }
    }

    /// The largest draft that is accepted, where this one is the least.
    fn larger(&mut self, small: SheetDraft, width: f32, accepts: impl Fn(&SheetDraft) -> bool) -> SheetDraft {
        let (mut low, mut high) = (small.space, LARGEST);
        let mut best = small;
        for _ in 0..TRIES {
            let middle = 0.5 * (low + high);
            let draft = self.draft(middle, width);
            if accepts(&draft) {
                (low, best) = (middle, draft);
            } else {
                high = middle;
            }
        }
        best
    }

    /// All columns in systems of at most `width` px.
    fn draft(&mut self, space: f32, width: f32) -> SheetDraft {
        let text = self.room.text_beside(space);
        self.all.iter_mut().for_each(|column| column.text = text);
        self.springs.finger(&self.all);
        let fits = |rows: &Vec<Range<usize>>| rows.iter().all(|row| space * self.least_width(row) <= width);
        let counts = 1..=self.breaks.iter().filter(|can| **can).count().max(1);
        let wrap = |count| wrapped(&self.all, &self.springs, &self.breaks, count);
        let rows = counts.map(wrap).find(fits).unwrap_or_else(|| wrap(usize::MAX));
        let systems = rows.into_iter().map(|range| self.system(range, width / space, text)).collect();
        SheetDraft { systems, space }
    }

    /// The smallest comfortable width of a row, in staff spaces.
    fn least_width(&self, row: &Range<usize>) -> f32 {
        let (first, last) = (&self.all[row.start], &self.all[row.end - 1]);
        let before = prefix(self.galley, first, self.shows_meter(row)) + first.reach()[0];
        before + self.springs.width(row.clone(), PRESSED) + last.reach()[1] + TAIL + 2.0 * MARGIN
    }

    /// The time signature stands at the begin, and again where it changes with a system.
    fn shows_meter(&self, row: &Range<usize>) -> bool {
        let bar = |column: usize| self.galley.bars[self.all[column].bar].index;
        let meter = |column: usize| self.galley.part.bars[bar(column)].meter;
        row.start == 0 || meter(row.start) != meter(row.start - 1)
    }

    /// A system as high as it gets, whoever plays.
    fn system(&self, range: Range<usize>, width: f32, text: f32) -> System {
        let meter = self.shows_meter(&range);
        let bars = self.all[range.start].bar..self.all[range.end - 1].bar + 1;
        let width = width - 2.0 * MARGIN;
        let Row { columns, width } = row(self.galley, &self.all, &self.springs, range, width, STRETCHED, meter);
        let plan = SystemPlan {
            galley: self.galley,
            columns: &columns,
            width,
            inks: &|_, _, _| Ink::Full,
            plays: &|_| true,
            text,
            meter,
            number_all: text < MANY_NUMBERS,
            crowns: &[],
            tops: &[],
        };
        let EngravedSystem { tops, top, bottom, .. } = plan.engrave();
        System { bars, columns, width, meter, tops, top: top - CROWN, bottom }
    }
}

/// A place for each system, what height is left shared out around them.
fn below_one_another(draft: &SheetDraft, room: Room) -> Vec<Slot> {
    let count = draft.systems.len();
    let spare = (room.height - draft.height()).max(0.0) / count.max(1) as f32;
    let mut top = 0.0;
    let mut slot = |system: &System| {
        let height = draft.space * system.height() + spare;
        top += height;
        Slot { left: 0.0, top: top - height, width: room.width, height }
    };
    draft.systems.iter().map(&mut slot).collect()
}

/// Equal places in so many columns and rows, each at least so high.
fn grid(across: usize, down: usize, least: f32, room: Room) -> Vec<Slot> {
    let gap = if across > 1 { BESIDE * room.least } else { 0.0 };
    let (width, height) = ((room.width + gap) / across as f32 - gap, (room.height / down as f32).max(least));
    let slot = |nth: usize| Slot {
        left: (width + gap) * (nth % across) as f32,
        top: height * (nth / across) as f32,
        width,
        height,
    };
    (0..across * down).map(slot).collect()
}
