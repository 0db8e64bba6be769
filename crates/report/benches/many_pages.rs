//! How long a report of sixty pages with 120 photographs of 12 megapixels takes, and how much memory:
//! `cargo bench -p report --profile dev`. The aim is 8 s and 600 MB on two cores, with nothing kept from before.
//!
//! The photographs are made here and kept in a temporary folder, so that they are read from disk as a store's would be.

use report::{Document, Finding, Options, Paper, Part, Picture, Pictures, Said, SeenLine, typeset};
use sha2::{Digest as _, Sha256};
use std::path::Path;
use std::time::Instant;

const PHOTOGRAPHS: u32 = 120;
const WIDTH: u32 = 4000;
const HEIGHT: u32 = 3000;

/// Makes the photographs, then sets the report twice, each in a run of this program of its own, so that neither memory
/// nor anything remembered is carried over but the prints that are meant to be kept.
fn main() {
    match (std::env::var("SIXTY_PAGES_MAKE"), std::env::var("SIXTY_PAGES_SET")) {
        (Ok(folder), _) => make(Path::new(&folder)),
        (_, Ok(folder)) => set(Path::new(&folder)),
        _ => {
            let folder = std::env::temp_dir().join(format!("sixty-pages-{}", std::process::id()));
            std::fs::create_dir_all(folder.join("kept")).expect("a temporary folder");
            let all = [
                ("SIXTY_PAGES_MAKE", ""),
                ("SIXTY_PAGES_SET", "cold, nothing kept"),
                ("SIXTY_PAGES_SET", "warm, prints kept"),
            ];
            let well = all.iter().all(|(task, title)| {
                println!("{title}");
                let own = std::env::current_exe().expect("this program");
                std::process::Command::new(own).env(task, &folder).status().is_ok_and(|status| status.success())
            });
            std::fs::remove_dir_all(&folder).expect("the temporary folder goes");
            assert!(well, "a run failed");
        }
    }
}

fn set(folder: &Path) {
    let names: Vec<String> =
        std::fs::read_to_string(folder.join("names")).expect("names").lines().map(str::to_owned).collect();
    let document = document(&names);
    let read = |name: &str| std::fs::read(folder.join(name));
    let kept = folder.join("kept");
    let options =
        Options { paper: Paper::A4, ident: "bench".into(), made: jiff::civil::date(2026, 6, 5).at(0, 0, 0, 0) };
    let begun = Instant::now();
    let pdf = typeset(&document, Pictures { read: &read, kept_in: Some(&kept) }, &options).expect("typesets");
    println!(
        "  {:.2} s, {} pages, {:.1} MB of PDF, pictures not printed {}, peak memory {}",
        begun.elapsed().as_secs_f64(),
        pdf.pages,
        pdf.bytes.len() as f64 / 1e6,
        pdf.picture_faults.len(),
        peak_memory()
    );
}

/// Writes the photographs, each with noise of its own so that it is as hard to decode as a real one.
fn make(folder: &Path) {
    let begun = Instant::now();
    let (mut names, mut bytes) = (String::new(), 0);
    let mut seed = 0x2545_f491_u32;
    let mut pixels = vec![0_u8; (WIDTH * HEIGHT * 3) as usize];
    for (i, pixel) in pixels.chunks_exact_mut(3).enumerate() {
        let (x, y) = (i as u32 % WIDTH, i as u32 / WIDTH);
        seed ^= seed << 13;
        seed ^= seed >> 17;
        seed ^= seed << 5;
        let grain = (x as f32 * 0.3 + (y as f32 * 0.01).sin() * 8.0).sin() * 20.0;
        let shade = (x as f32 * 0.013).sin() * 40.0 + (y as f32 * 0.021).cos() * 40.0 + grain + 100.0;
        let shade = (shade + (seed % 36) as f32).clamp(20.0, 235.0) as u8;
        pixel.copy_from_slice(&[shade + 20, shade, shade - 20]);
    }
    for n in 0..PHOTOGRAPHS {
        // A band of another shade makes each a picture of its own.
        let band = (n * 24 * WIDTH * 3) as usize;
        let mut own = pixels.clone();
        own[band..band + (24 * WIDTH * 3) as usize].fill(n as u8);
        let mut jpeg = Vec::new();
        image::codecs::jpeg::JpegEncoder::new_with_quality(&mut jpeg, 85)
            .encode(&own, WIDTH, HEIGHT, image::ExtendedColorType::Rgb8)
            .expect("encodes");
        let name: String = Sha256::digest(&jpeg).iter().map(|b| format!("{b:02x}")).collect();
        bytes += jpeg.len();
        std::fs::write(folder.join(&name), jpeg).expect("writes");
        names.push_str(&name);
        names.push('\n');
    }
    std::fs::write(folder.join("names"), names).expect("writes");
    println!(
        "{PHOTOGRAPHS} photographs of {:.0} megapixels, {:.1} MB each on average, made in {:.1} s",
        f64::from(WIDTH * HEIGHT) / 1e6,
        bytes as f64 / 1e6 / f64::from(PHOTOGRAPHS),
        begun.elapsed().as_secs_f64()
    );
}

fn document(names: &[String]) -> Document {
    let findings = names.chunks(2).zip(1..).map(|(pair, number)| Finding {
        number,
        title: format!("Invented finding {number}"),
        place: format!("Planking, port, strake {}", number % 9 + 1),
        condition: "work needed".into(),
        seen: (0..9)
            .map(|i| SeenLine {
                observation: number * 9 + i,
                place: format!("frame {i}"),
                said: Said::fact("Sounded dull over 300 mm along the lower edge, where the bung had lifted; the strakes above and below rang, and the knife went in 4 mm."),
            })
            .collect(),
        opinion: "The plank is decayed along its lower edge where rain lies behind the rail. It has lost its hold on the frame there. ".repeat(5),
        pictures: pair.iter().map(|name| Picture::new(name, "An invented photograph of planking.", "Planking.")).collect(),
        ..Finding::default()
    });
    Document {
        title: "Invented survey".into(),
        vessel_name: "Sixty Pages".into(),
        parts: vec![Part { title: "Planking".into(), findings: findings.collect(), seen_only: vec![] }],
        ..Document::default()
    }
}

/// Returns the most memory this process has held, as Linux tells it.
fn peak_memory() -> String {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let peak = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    peak.map_or_else(|| "not known".to_owned(), |peak| peak.trim().to_owned())
}
