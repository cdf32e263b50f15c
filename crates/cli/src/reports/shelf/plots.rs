//! Drawings of a series, its readers from left to right: how much can be read, how many words are new, when each pattern and each sight
//! word comes again.

use serde::Serialize;
use untaught::{LessonIndex, Status, messages, percent};

use crate::analysis::{Book, Shelf};

/// A drawing in its own units.
const WIDTH: f64 = 420.0;
const LEFT: f64 = 46.0;
const RIGHT: f64 = 408.0;
const TOP: f64 = 12.0;
const BOTTOM: f64 = 150.0;

/// Readers with a place of their own from left to right; of more, several share one.
const PLACES: usize = 60;

/// Patterns or words with a row of their own: as many as a page can show.
const ROWS: usize = 150;

/// The sizes of a map: its names, and each of its rows.
const NAMES: f64 = 150.0;
const ROW: f64 = 15.0;
const MAP_TOP: f64 = 6.0;

/// A drawing with an axis upwards.
#[derive(Serialize)]
pub(super) struct Plot {
    id: &'static str,
    title: &'static str,
    about: String,
    up_label: &'static str,
    up: Vec<Tick>,
    across: Vec<Tick>,
    lines: Vec<Line>,
    bars: Vec<Bar>,
}

#[derive(Serialize)]
struct Tick {
    at: f64,
    label: String,
}

#[derive(Serialize)]
struct Line {
    class: &'static str,
    label: &'static str,
    points: String,
}

#[derive(Serialize)]
struct Bar {
    x: f64,
    y: f64,
    width: f64,
    height: f64,
}

/// A row for each of many things, with a mark in each place where readers have it.
#[derive(Serialize)]
pub(super) struct Map {
    id: &'static str,
    title: &'static str,
    about: String,
    width: f64,
    height: f64,
    bottom: f64,
    left: f64,
    rows: Vec<MapRow>,
    across: Vec<Tick>,
    /// How many things have no row, for want of room.
    more: usize,
}

#[derive(Serialize)]
struct MapRow {
    label: String,
    y: f64,
    /// Where its lesson begins.
    taught: Option<f64>,
    marks: Vec<Mark>,
}

#[derive(Serialize)]
struct Mark {
    x: f64,
    width: f64,
    /// How dark it is; `early` before its lesson.
    class: &'static str,
}

/// The places from left to right: which readers share each.
struct Places {
    readers: usize,
    each: usize,
}

impl Places {
    fn of(readers: usize) -> Places {
        Places { readers, each: readers.div_ceil(PLACES).max(1) }
    }

    fn number(&self) -> usize {
        self.readers.div_ceil(self.each)
    }

    fn of_reader(&self, reader: usize) -> usize {
        reader / self.each
    }

    /// The numbers of some readers, from 1, each with its place.
    fn named(&self, room: usize) -> Vec<(usize, String)> {
        let step = self.number().div_ceil(room.max(1)).max(1);
        (0..self.number()).step_by(step).map(|place| (place, (place * self.each + 1).to_string())).collect()
    }
}

/// How much of each reader can be read and sounded out, how many of its words are new, and how many different words have come by then.
pub(super) fn growth(shelf: &Shelf) -> Vec<Plot> {
    let places = Places::of(shelf.books.len());
    let number = places.number();
    let chunks: Vec<&[Book]> = shelf.books.chunks(places.each).collect();
    let share = |part: &dyn Fn(&Book) -> usize| -> Vec<f64> {
        let of = |books: &&[Book]| {
            let words = books.iter().map(|book| book.words).sum();
            percent(books.iter().map(part).sum(), words).unwrap_or_default()
        };
        chunks.iter().map(of).collect()
    };
    let (readable, decodable) = (share(&|book| book.readable), share(&|book| book.decodable));
    let new: Vec<f64> = shelf
        .series
        .new_words
        .chunks(places.each)
        .map(|chunk| chunk.iter().sum::<usize>() as f64 / chunk.len() as f64)
        .collect();
    let mut sum = 0;
    let so_far: Vec<f64> = shelf
        .series
        .new_words
        .chunks(places.each)
        .map(|chunk| {
            sum += chunk.iter().sum::<usize>();
            sum as f64
        })
        .collect();
    let across = || -> Vec<Tick> {
        let tick = |(place, label): (usize, String)| Tick { at: middle(place, number), label };
        places.named(12).into_iter().map(tick).collect()
    };
    let line = |class, label, values: &[f64], most: f64| {
        let point = |(place, value): (usize, &f64)| format!("{},{}", middle(place, number), up(*value, most));
        let points: Vec<String> = values.iter().enumerate().map(point).collect();
        Line { class, label, points: points.join(" ") }
    };
    let ends = |what: &str, values: &[f64], shown: &dyn Fn(f64) -> String| {
        let (first, last) = (values.first().copied().unwrap_or_default(), values.last().copied().unwrap_or_default());
        format!("{what} from {} in the first reader to {} in the last", shown(first), shown(last))
    };
    let as_percent = |value: f64| messages::percent(Some(value));
    let as_number = |value: f64| format!("{value:.0}");
    let most_new = scale(&new);
    let most = scale(&so_far);
    let slot = (RIGHT - LEFT) / number.max(1) as f64;
    let bar = |(place, value): (usize, &f64)| {
        let y = up(*value, most_new);
        let width = tenths(slot * 0.7);
        Bar { x: tenths(middle(place, number) - width / 2.0), y, width, height: tenths(BOTTOM - y) }
    };
    vec![
        Plot {
            id: "readable",
            title: "Readable and decodable words at each reader’s lesson",
            about: format!(
                "{}; {}.",
                ends("Readable:", &readable, &as_percent),
                ends("decodable:", &decodable, &as_percent)
            ),
            up_label: "percent of words",
            up: ticks(100.0),
            across: across(),
            lines: vec![
                line("decodable", "decodable", &decodable, 100.0),
                line("readable", "readable", &readable, 100.0),
            ],
            bars: Vec::new(),
        },
        Plot {
            id: "new-words",
            title: "New words in each reader",
            about: format!("{}.", ends("New words:", &new, &as_number)),
            up_label: "new words",
            up: ticks(most_new),
            across: across(),
            lines: Vec::new(),
            bars: new.iter().enumerate().map(bar).collect(),
        },
        Plot {
            id: "vocabulary",
            title: "Different words so far",
            about: format!("{}.", ends("Different words:", &so_far, &as_number)),
            up_label: "different words",
            up: ticks(most),
            across: across(),
            lines: vec![line("readable", "different words so far", &so_far, most)],
            bars: Vec::new(),
        },
    ]
}

/// When each pattern taught by the last reader is practised.
pub(super) fn patterns(shelf: &Shelf) -> Option<Map> {
    let taught: Vec<usize> = (0..shelf.series.patterns.len())
        .filter(|number| shelf.lacks.last.is_some_and(|last| shelf.series.patterns[*number].lesson <= last))
        .collect();
    let places = Places::of(shelf.books.len());
    let mut counts = vec![vec![[0; 2]; places.number()]; shelf.series.patterns.len()];
    for (reader, book) in shelf.books.iter().enumerate() {
        let place = places.of_reader(reader);
        for (pattern, times) in shelf.practised(book).into_iter().enumerate() {
            counts[pattern][place][1] += times;
        }
        for (pattern, times) in shelf.before_their_lesson(book) {
            counts[pattern][place][0] += times;
        }
    }
    let rows = taught.into_iter().map(|number| {
        let row = &shelf.series.patterns[number];
        (row.label.clone(), row.lesson, std::mem::take(&mut counts[number]))
    });
    map(shelf, &places, "pattern-map", "When each pattern is practised", rows.collect())
}

/// When each sight word taught by the last reader comes.
pub(super) fn sight_words(shelf: &Shelf) -> Option<Map> {
    let taught = shelf.series.sight.iter().filter(|row| shelf.lacks.last.is_some_and(|last| row.lesson <= last));
    let taught: Vec<_> = taught.collect();
    let places = Places::of(shelf.books.len());
    let mut counts = vec![vec![[0; 2]; places.number()]; taught.len()];
    let rows: std::collections::HashMap<u32, usize> =
        taught.iter().enumerate().filter_map(|(row, sight)| Some((sight.number?, row))).collect();
    for (reader, book) in shelf.books.iter().enumerate() {
        for word in &book.uses {
            let Some(row) = rows.get(&word.word) else { continue };
            let early = usize::from(matches!(word.status, Status::Decodable | Status::Sight));
            counts[*row][places.of_reader(reader)][early] += word.times as usize;
        }
    }
    let rows = taught.iter().zip(counts).map(|(row, counts)| (row.word.clone(), row.lesson, counts));
    map(shelf, &places, "sight-map", "When each sight word comes", rows.collect())
}

/// A map of rows: a name, its lesson, and for each place the words before the lesson and those that can be read.
fn map(
    shelf: &Shelf,
    places: &Places,
    id: &'static str,
    title: &'static str,
    mut rows: Vec<(String, LessonIndex, Vec<[usize; 2]>)>,
) -> Option<Map> {
    let all = rows.len();
    rows.truncate(ROWS);
    if rows.is_empty() {
        return None;
    }
    let slot = (540.0 / places.number().max(1) as f64).clamp(8.0, 22.0);
    let never = rows.iter().filter(|(.., counts)| counts.iter().all(|[_, read]| *read == 0)).count();
    let about = format!("{all} rows, in the order in which they are taught. {never} are never met in a readable word.");
    let begins = |lesson: LessonIndex| {
        let first = shelf.books.iter().position(|book| book.fit.lesson().is_some_and(|of| of >= lesson))?;
        Some(tenths(NAMES + places.of_reader(first) as f64 * slot))
    };
    let drawn = rows.iter().enumerate().map(|(number, (label, lesson, counts))| {
        let mark = |(place, [early, read]): (usize, &[usize; 2])| {
            let class = match (early, read) {
                (0, 0) => return None,
                (_, 0) => "early",
                (_, 1..=2) => "few",
                (_, 3..=5) => "some",
                _ => "many",
            };
            Some(Mark { x: tenths(NAMES + place as f64 * slot + 1.0), width: tenths(slot - 2.0), class })
        };
        let shown: String = label.chars().take(18).collect();
        let label = if shown.len() < label.len() { shown + "…" } else { shown };
        MapRow {
            label,
            y: tenths(MAP_TOP + number as f64 * ROW),
            taught: begins(*lesson),
            marks: counts.iter().enumerate().filter_map(mark).collect(),
        }
    });
    let drawn: Vec<MapRow> = drawn.collect();
    let bottom = tenths(MAP_TOP + drawn.len() as f64 * ROW);
    let room = (places.number() as f64 * slot / 24.0) as usize;
    let tick = |(place, label): (usize, String)| Tick { at: tenths(NAMES + (place as f64 + 0.5) * slot), label };
    Some(Map {
        id,
        title,
        about,
        width: tenths(NAMES + places.number() as f64 * slot + 6.0),
        height: tenths(bottom + 34.0),
        bottom,
        left: NAMES,
        across: places.named(room).into_iter().map(tick).collect(),
        more: all - drawn.len(),
        rows: drawn,
    })
}

/// The end of an axis: a round number that no value exceeds.
fn scale(values: &[f64]) -> f64 {
    let most = values.iter().copied().fold(1.0, f64::max);
    let ten = 10_f64.powf(most.log10().floor());
    let round = [1.0, 2.0, 4.0, 5.0, 8.0, 10.0].into_iter().map(|n| n * ten).find(|round| *round >= most);
    round.unwrap_or(most).max(4.0)
}

fn ticks(most: f64) -> Vec<Tick> {
    let one = |quarter: f64| Tick { at: up(most * quarter, most), label: format!("{:.0}", most * quarter) };
    [0.0, 0.25, 0.5, 0.75, 1.0].map(one).into()
}

fn middle(place: usize, places: usize) -> f64 {
    tenths(LEFT + (place as f64 + 0.5) / places.max(1) as f64 * (RIGHT - LEFT))
}

fn up(value: f64, most: f64) -> f64 {
    tenths(BOTTOM - (value / most).clamp(0.0, 1.0) * (BOTTOM - TOP))
}

fn tenths(at: f64) -> f64 {
    (at.max(0.0) * 10.0).round() / 10.0
}

const _: () = assert!(RIGHT < WIDTH);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_axis_ends_at_a_round_number_and_many_readers_share_places() {
        assert_eq!([&[3.0][..], &[9.0], &[11.0, 17.0], &[401.0], &[]].map(scale), [4.0, 10.0, 20.0, 500.0, 4.0]);
        let places = Places::of(125);
        assert_eq!((places.each, places.number(), places.of_reader(124)), (3, 42, 41));
        assert_eq!(places.named(4).last(), Some(&(33, "100".to_owned())));
        assert_eq!(Places::of(0).number(), 0);
    }
}
