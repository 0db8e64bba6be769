//! From a table of offsets to a drawn expansion of 14 strakes and 40 frames: how long it takes.
//! Run: `cargo bench -p hull --profile dev`.

use hull::{Basis, Expansion, Fairing, Frame, Lining, Offsets, sheets};
use std::time::Instant;

fn main() {
    // The Wigley form as triples, 21 stations and 9 level lines.
    let mut text = String::from("x_m,z_m,half_breadth_m\n");
    for i in 0..=20 {
        for j in 0..=8 {
            let (x, z) = (f64::from(i) / 20.0, f64::from(j) / 8.0);
            let y = 1.2 * (1.0 - (2.0 * x - 1.0).powi(2)) * (1.0 - (z - 1.0).powi(2));
            text.push_str(&format!("{},{z},{y}\n", 8.0 * x));
        }
    }
    let mut times = Vec::new();
    let mut bytes = 0;
    for _ in 0..40 {
        let start = Instant::now();
        let table = Offsets::read(&text).expect("a table");
        let surface = table.surface(Fairing::default()).expect("a surface");
        let boat =
            Expansion::new(surface, &Lining::Equal { strakes: 14 }, Frame::evenly(40, 0.4, 7.6)).expect("lined off");
        let figures = boat.strake_figures();
        let sheet = sheets::shell_pair(sheets::Page::A4, &boat.layout(Basis::Offsets), &[], &[]);
        bytes = sheet.to_svg().len() + figures.len();
        times.push(start.elapsed().as_secs_f64() * 1000.0);
    }
    times.sort_by(f64::total_cmp);
    println!(
        "offsets to drawn expansion, 14 strakes, 40 frames: median {:.1} ms, slowest {:.1} ms ({bytes} bytes)",
        times[20], times[39]
    );
}
