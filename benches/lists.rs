//! The speed of lists for a lesson.

use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use untaught::{Focus, Judge, LessonIndex, Reader, Scope};
use untaught_lists::{Bank, ChainRequest, PackRequest, Vocabulary, WordFilter, chain, pack};

fn lists(criterion: &mut Criterion) {
    let reader = Reader::default();
    let scope = Scope::embedded("starter", &reader).expect("it comes with the program");
    let judge = || Judge::new(&reader, &scope);
    let bank = |lesson: LessonIndex, syllables| Bank::new(judge(), black_box(lesson), Vocabulary::default(), syllables);
    let mut group = criterion.benchmark_group("lists");
    group.sample_size(20);
    for id in ["15", "40", "60"] {
        let lesson = scope.index_of(id).expect("the scope has it");
        group.bench_function(format!("words of the pattern, lesson {id}"), |bencher| {
            let focus = Focus::of_lesson(&scope, lesson);
            bencher.iter(|| {
                let filter = WordFilter { focus: Some(focus.clone()), ..WordFilter::default() };
                bank(lesson, 1..=usize::MAX).select(&filter).len()
            });
        });
        group.bench_function(format!("a chain of ten, lesson {id}"), |bencher| {
            let request = ChainRequest { steps: Some(10), seed: 1, ..ChainRequest::default() };
            bencher.iter(|| chain(&bank(lesson, 1..=1), &request).is_ok());
        });
        group.bench_function(format!("a pack, lesson {id}"), |bencher| {
            bencher.iter(|| {
                pack(judge(), &PackRequest { lesson, focus: None, vocabulary: Vocabulary::default(), seed: 1 })
                    .patterns
                    .len()
            });
        });
    }
    group.finish();
}

criterion_group!(benches, lists);
criterion_main!(benches);
