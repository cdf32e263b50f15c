//! The speed of lists for a lesson.

use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use untaught::{Focus, Judge, LessonIndex, Reader, Scope};
use untaught_materials::{Bank, ChainWanted, PackWanted, Wanted, chain, pack};

fn materials(criterion: &mut Criterion) {
    let reader = Reader::default();
    let scope = Scope::embedded("starter", &reader).expect("it comes with the program");
    let judge = || Judge::new(&reader, &scope);
    let bank = |lesson: LessonIndex, syllables| Bank::new(judge(), black_box(lesson), 35, syllables);
    let mut group = criterion.benchmark_group("lists");
    group.sample_size(20);
    for lesson in [14, 39, 59] {
        group.bench_function(format!("words of the pattern, lesson {}", lesson + 1), |bencher| {
            let focus = Focus::of_lesson(&scope, lesson);
            bencher.iter(|| {
                let wanted = Wanted { focus: Some(focus.clone()), ..Wanted::default() };
                bank(lesson, 1..=usize::MAX).select(&wanted).len()
            });
        });
        group.bench_function(format!("a chain of ten, lesson {}", lesson + 1), |bencher| {
            let wanted =
                ChainWanted { steps: Some(10), from: None, to: None, changes: Vec::new(), focus: None, seed: 1 };
            bencher.iter(|| chain(&bank(lesson, 1..=1), &wanted).is_ok());
        });
        group.bench_function(format!("a pack, lesson {}", lesson + 1), |bencher| {
            bencher.iter(|| pack(judge(), &PackWanted { lesson, focus: None, class: 35, seed: 1 }).patterns.len());
        });
    }
    group.finish();
}

criterion_group!(benches, materials);
criterion_main!(benches);
