//! Time of one seam forecast of a year: hourly steps for the middle line, three-hourly for the ends of the band.

use std::time::Instant;
use timber::drying::{Coating, Exposure, Faces, Plank, Surroundings, dry};
use timber::ring::Rings;
use timber::seam::forecast;

/// Invented monthly means.
const YEAR: &str = "month,temp_c,rh_percent\n1,3,88\n2,4,86\n3,6,80\n4,9,75\n5,12,73\n6,15,74\n7,17,75\n8,17,77\n\
                    9,14,81\n10,11,85\n11,7,88\n12,4,89\n";

fn main() {
    let Ok(year) = Surroundings::monthly_csv(YEAR, 4) else { return };
    for species in ["white oak", "larch", "western redcedar"] {
        let plank = Plank {
            species,
            thickness_mm: 30.0,
            mc_start_percent: 28.0,
            faces: Faces::Both,
            coating: Coating::Bare,
            exposure: Exposure::Breeze,
        };
        let mut times: Vec<(f64, f64)> = (0..20)
            .map(|_| {
                let start = Instant::now();
                let one = dry(&plank, &year, 365.0).map(|d| d.came_in_percent);
                let alone = start.elapsed().as_secs_f64() * 1e3;
                let start = Instant::now();
                let whole = forecast(&plank, 125.0, Rings::FLAT, &year, 365.0).map(|f| f.emc_percent);
                std::hint::black_box((one.is_ok(), whole.is_ok()));
                (alone, start.elapsed().as_secs_f64() * 1e3)
            })
            .collect();
        times.sort_by(|a, b| a.1.total_cmp(&b.1));
        println!(
            "{species}: drying alone {:.2} ms; seam forecast with band {:.2} ms (median), {:.2} ms (slowest of 20)",
            times[10].0, times[10].1, times[19].1
        );
    }
}
