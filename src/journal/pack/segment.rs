//! Entries as columns: what repeats from entry to entry stands together and deflates to nearly nothing.
//!
//! What happens all day long has columns of its own; every other kind of entry stands in its written form.
//! The numbers of kinds, hands and causes never change.

use crate::{
    clock::Moment,
    journal::{
        DeviceId, Entry, EntryId, EntryKind, SnippetId,
        pack::column::{Column, Reading, unzigzag, zigzag},
    },
    method::{Cause, Hands, Span, Step, Verdict},
    music::Bpm,
};

const HANDS: [Hands; 4] = [Hands::Left, Hands::Right, Hands::Both, Hands::Line];
const CAUSES: [Cause; 7] =
    [Cause::TooLoud, Cause::TooSoft, Cause::Early, Cause::Late, Cause::Uneven, Cause::WrongNote, Cause::Tense];

const CLEAN: u8 = 0;
const NOT_YET: u8 = 1;
const CAUSE_NAMED: u8 = 2;
const BLOCK_BEGAN: u8 = 3;
const BLOCK_ENDED: u8 = 4;
const OVERRULED: u8 = 5;
const STARTED_AFRESH: u8 = 6;
const GOOD_ENOUGH: u8 = 7;
const NOT_TODAY: u8 = 8;
const RETRACTED: u8 = 9;
const OTHER: u8 = 10;

/// One column for each thing that an entry tells.
#[derive(Default)]
struct Columns<C> {
    kinds: C,
    /// By how much the number is higher than that of the entry before.
    numbers: C,
    devices: C,
    /// Milliseconds since the entry before: the lowest eight bits, which no packing makes smaller, and the rest.
    ms_low: C,
    ms_rest: C,
    /// By how many minutes the offset from UTC differs from the entry before.
    offsets: C,
    snippets: C,
    steps: C,
    /// The entry that is spoken of, by how many numbers it lies back.
    spoken_of: C,
    causes: C,
    others: C,
}

impl<C> Columns<C> {
    fn all(&mut self) -> [&mut C; 11] {
        let Columns { kinds, numbers, devices, ms_low, ms_rest, offsets, snippets, steps, spoken_of, causes, others } =
            self;
        [kinds, numbers, devices, ms_low, ms_rest, offsets, snippets, steps, spoken_of, causes, others]
    }
}

/// Values that are written in full once, and from then on by their place among all of them.
struct Known<T> {
    all: Vec<T>,
    latest: Option<T>,
}

impl<T> Default for Known<T> {
    fn default() -> Self {
        Known { all: Vec::new(), latest: None }
    }
}

impl<T: Copy + PartialEq> Known<T> {
    fn write(&mut self, value: T, column: &mut Column, in_full: impl FnOnce(&mut Column)) {
        if self.latest.replace(value) == Some(value) {
            return column.number(0);
        }
        match self.all.iter().position(|known| *known == value) {
            Some(place) => column.number(place as u64 + 1),
            None => {
                column.number(self.all.len() as u64 + 1);
                in_full(column);
                self.all.push(value);
            }
        }
    }

    fn read<'a>(&mut self, column: &mut Reading<'a>, in_full: impl FnOnce(&mut Reading<'a>) -> Option<T>) -> Option<T> {
        let place = match column.number()? {
            0 => return self.latest,
            number => usize::try_from(number - 1).ok()?,
        };
        if place == self.all.len() {
            self.all.push(in_full(column)?);
        }
        self.latest = Some(*self.all.get(place)?);
        self.latest
    }
}

/// What is remembered from entry to entry, the same in writing and in reading.
struct Before {
    number: u64,
    at: Moment,
    devices: Known<DeviceId>,
    snippets: Known<SnippetId>,
    steps: Known<Step>,
}

impl Before {
    fn nothing() -> Before {
        let at = Moment::new(0, 0);
        Before { number: 0, at, devices: Known::default(), snippets: Known::default(), steps: Known::default() }
    }
}

/// Entries in ascending order as columns, each behind its length.
pub fn write<'a>(entries: impl Iterator<Item = &'a Entry>) -> Vec<u8> {
    let (mut columns, mut before) = (Columns::<Column>::default(), Before::nothing());
    entries.for_each(|entry| before.write(entry, &mut columns));
    let mut bytes = Column::default();
    for column in columns.all() {
        bytes.part(column.bytes());
    }
    bytes.into_bytes()
}

impl Before {
    fn write(&mut self, entry: &Entry, columns: &mut Columns<Column>) {
        columns.numbers.number(entry.id.number - self.number);
        let device = entry.id.device;
        self.devices.write(device, &mut columns.devices, |column| column.number(device.0));
        let ms = zigzag(entry.at.ms_since(self.at));
        columns.ms_low.byte(ms as u8);
        columns.ms_rest.number(ms >> 8);
        columns.offsets.signed(i64::from(entry.at.offset_minutes()) - i64::from(self.at.offset_minutes()));
        (self.number, self.at) = (entry.id.number, entry.at);
        if self.write_kind(entry, columns).is_none() {
            columns.kinds.byte(OTHER);
            columns.others.part(entry.written().as_bytes());
        }
    }

    /// Writes what happened into its columns; `None` where it has none.
    fn write_kind(&mut self, entry: &Entry, columns: &mut Columns<Column>) -> Option<()> {
        let place = |cause: &Cause| CAUSES.iter().position(|known| known == cause).map(|place| place as u8);
        match &entry.kind {
            EntryKind::Played { snippet, step, verdict: Verdict::Clean } => {
                self.stepped(CLEAN, *snippet, *step, columns)
            }
            EntryKind::Played { snippet, step, verdict: Verdict::NotYet } => {
                self.stepped(NOT_YET, *snippet, *step, columns)
            }
            EntryKind::Overruled { snippet, step } => self.stepped(OVERRULED, *snippet, *step, columns),
            EntryKind::BlockBegan { snippet } => self.about(BLOCK_BEGAN, *snippet, columns),
            EntryKind::BlockEnded { snippet } => self.about(BLOCK_ENDED, *snippet, columns),
            EntryKind::StartedAfresh { snippet } => self.about(STARTED_AFRESH, *snippet, columns),
            EntryKind::GoodEnough { snippet } => self.about(GOOD_ENOUGH, *snippet, columns),
            EntryKind::NotToday { snippet } => self.about(NOT_TODAY, *snippet, columns),
            EntryKind::CauseNamed { repetition, cause } => {
                columns.causes.byte(place(cause)?);
                self.speaks_of(CAUSE_NAMED, *repetition, columns);
            }
            EntryKind::Retracted { entry } => self.speaks_of(RETRACTED, *entry, columns),
            _ => return None,
        }
        Some(())
    }

    fn about(&mut self, kind: u8, snippet: SnippetId, columns: &mut Columns<Column>) {
        columns.kinds.byte(kind);
        self.snippets.write(snippet, &mut columns.snippets, |column| {
            column.number(snippet.0.number);
            column.number(snippet.0.device.0);
        });
    }

    fn stepped(&mut self, kind: u8, snippet: SnippetId, step: Step, columns: &mut Columns<Column>) {
        self.about(kind, snippet, columns);
        self.steps.write(step, &mut columns.steps, |column| {
            column.number(step.span.first() as u64);
            column.number(step.span.last() as u64);
            column.number(HANDS.iter().position(|hands| *hands == step.hands).unwrap_or(HANDS.len()) as u64);
            column.number(u64::from(step.bpm.get()));
        });
    }

    fn speaks_of(&mut self, kind: u8, entry: EntryId, columns: &mut Columns<Column>) {
        columns.kinds.byte(kind);
        columns.spoken_of.signed(self.number.wrapping_sub(entry.number) as i64);
        self.devices.write(entry.device, &mut columns.spoken_of, |column| column.number(entry.device.0));
    }
}

/// How many bytes an entry takes before it is deflated, roughly.
pub fn bulk(entry: &Entry) -> usize {
    const IN_COLUMNS: usize = 16;
    let in_columns = Before::nothing().write_kind(entry, &mut Columns::default()).is_some();
    if in_columns { IN_COLUMNS } else { entry.written().len() }
}

/// Reads so many entries back, each handed to `take`; `None` where the bytes are not what [`write`] wrote.
pub fn read(bytes: &[u8], count: usize, take: &mut dyn FnMut(Entry)) -> Option<()> {
    let mut bytes = Reading::new(bytes);
    let mut columns = Columns::<Reading>::default();
    for column in columns.all() {
        *column = Reading::new(bytes.part()?);
    }
    let mut before = Before::nothing();
    for _ in 0..count {
        take(before.read(&mut columns)?);
    }
    columns.all().iter().all(|column| column.has_ended()).then_some(())
}

impl Before {
    fn read(&mut self, columns: &mut Columns<Reading>) -> Option<Entry> {
        let number = self.number.checked_add(columns.numbers.number()?)?;
        let device = self.devices.read(&mut columns.devices, |column| column.number().map(DeviceId))?;
        let ms = columns.ms_rest.number()? << 8 | u64::from(columns.ms_low.byte()?);
        let unix_ms = self.at.unix_ms().checked_add(unzigzag(ms))?;
        let offset = i64::from(self.at.offset_minutes()).checked_add(columns.offsets.signed()?)?;
        let (id, at) = (EntryId { number, device }, Moment::new(unix_ms, i16::try_from(offset).ok()?));
        (self.number, self.at) = (number, at);
        match columns.kinds.byte()? {
            OTHER => read_line(columns.others.part()?).filter(|entry| entry.id == id && entry.at == at),
            kind => Some(Entry { id, at, kind: self.read_kind(kind, columns)? }),
        }
    }

    fn read_kind(&mut self, kind: u8, columns: &mut Columns<Reading>) -> Option<EntryKind> {
        if matches!(kind, CAUSE_NAMED | RETRACTED) {
            let spoken_of = self.read_spoken_of(columns)?;
            return Some(match kind {
                RETRACTED => EntryKind::Retracted { entry: spoken_of },
                _ => EntryKind::CauseNamed {
                    repetition: spoken_of,
                    cause: *CAUSES.get(usize::from(columns.causes.byte()?))?,
                },
            });
        }
        let snippet = self.snippets.read(&mut columns.snippets, |column| {
            let (number, device) = (column.number()?, DeviceId(column.number()?));
            Some(SnippetId(EntryId { number, device }))
        })?;
        Some(match kind {
            CLEAN => EntryKind::Played { snippet, step: self.read_step(columns)?, verdict: Verdict::Clean },
            NOT_YET => EntryKind::Played { snippet, step: self.read_step(columns)?, verdict: Verdict::NotYet },
            OVERRULED => EntryKind::Overruled { snippet, step: self.read_step(columns)? },
            BLOCK_BEGAN => EntryKind::BlockBegan { snippet },
            BLOCK_ENDED => EntryKind::BlockEnded { snippet },
            STARTED_AFRESH => EntryKind::StartedAfresh { snippet },
            GOOD_ENOUGH => EntryKind::GoodEnough { snippet },
            NOT_TODAY => EntryKind::NotToday { snippet },
            _ => return None,
        })
    }

    fn read_step(&mut self, columns: &mut Columns<Reading>) -> Option<Step> {
        self.steps.read(&mut columns.steps, |column| {
            let mut number = || column.number().and_then(|number| u16::try_from(number).ok());
            let span = Span::new(usize::from(number()?), usize::from(number()?))?;
            let hands = *HANDS.get(usize::from(number()?))?;
            Some(Step { span, hands, bpm: Bpm::new(number()?)? })
        })
    }

    fn read_spoken_of(&mut self, columns: &mut Columns<Reading>) -> Option<EntryId> {
        let number = self.number.wrapping_sub(columns.spoken_of.signed()? as u64);
        let device = self.devices.read(&mut columns.spoken_of, |column| column.number().map(DeviceId))?;
        Some(EntryId { number, device })
    }
}

fn read_line(line: &[u8]) -> Option<Entry> {
    Entry::read(std::str::from_utf8(line).ok()?).ok()
}
