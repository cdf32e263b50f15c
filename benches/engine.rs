//! The engine's speed: start-up, compiling a scope, checking a text, explaining a word.

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use std::hint::black_box;
use untaught::{Judge, LessonIndex, Options, Reader, Scope, check, tokens};

const STORIES: [&str; 3] = [
    include_str!("../scope-files/readers/20-tabs-itch.txt"),
    include_str!("../scope-files/readers/40-the-fastest-cart.txt"),
    include_str!("../scope-files/readers/60-the-best-invention.txt"),
];

fn scope(reader: &Reader) -> Scope {
    Scope::embedded("starter", reader).expect("it comes with the program")
}

fn engine(criterion: &mut Criterion) {
    criterion.bench_function("open the lexicon and compile the starter scope", |bencher| {
        bencher.iter(|| scope(&Reader::default()));
    });
    let reader = Reader::default();
    let scope = scope(&reader);
    criterion.bench_function("check a story of 160 words", |bencher| {
        bencher.iter(|| check(black_box(STORIES[1]), &scope, &reader, &Options::at(LessonIndex::new(40).unwrap())));
    });
    let judge = Judge::new(&reader, &scope);
    for (name, word) in
        [("of the dictionary", "lighthouses"), ("derived", "goatherds"), ("by its letters", "splinkering")]
    {
        criterion.bench_function(&format!("judge a word {name}"), |bencher| {
            bencher.iter(|| judge.judge(black_box(word)));
        });
    }
    criterion.bench_function("explain a word", |bencher| {
        bencher.iter(|| {
            let verdict = judge.judge(black_box("lighthouses"));
            verdict.word.readings.iter().map(|reading| judge.cover(&verdict.word, reading).steps.len()).sum::<usize>()
        });
    });
    let long = STORIES.concat().repeat(1000);
    let mut group = criterion.benchmark_group("a long text");
    group.throughput(Throughput::Elements(tokens(&long).count() as u64)).sample_size(20);
    group.bench_function("find its words", |bencher| bencher.iter(|| tokens(black_box(&long)).count()));
    group.bench_function("check it", |bencher| {
        bencher.iter(|| check(black_box(&long), &scope, &reader, &Options::at(LessonIndex::new(40).unwrap())))
    });
    group.finish();
}

criterion_group!(benches, engine);
criterion_main!(benches);
