//! Time to work out a case of ten sites.

mod many_sites;

use criterion::{Criterion, criterion_group, criterion_main};
use many_sites::sites;
use std::hint::black_box;
use traywright_core::plan::work_out;

fn worksheet(c: &mut Criterion) {
    let ten = sites(10);
    assert_eq!(ten.sites.len(), 10);
    c.bench_function("worksheet of 10 sites", |b| {
        b.iter(|| work_out(black_box(&ten)));
    });
    c.bench_function("fingerprint of 10 sites", |b| {
        b.iter(|| black_box(&ten).fingerprint());
    });
}

criterion_group!(benches, worksheet);
criterion_main!(benches);
