//! How long long reports with many photographs take, and how much memory: `cargo bench --workspace --exclude xtask
//! --profile dev --bench many_pages`, or `cargo bench -p report --profile dev` where building the typesetter once more is
//! no matter. Sixty pages with 120 photographs of 12 megapixels should take at most 8 s and 600 MB on two cores, two
//! hundred pages with 400 of them 20 s and 1 GB, nothing kept from before; a change of one finding 0.5 s until its page
//! is seen again.
//!
//! Then, in the same run, the same document goes through general-purpose programs, where the machine has them: its DOCX
//! through LibreOffice to PDF (`soffice`), and through pandoc and WeasyPrint. They are given the photographs as small as
//! they are printed, so they are spared the decoding that the cold run includes; the warm run is spared it too.
//!
//! The photographs are made here and kept in a temporary folder, so that they are read from disk as a store's would be.

use report::{Document, Finding, Options, Paper, Part, Picture, Pictures, Said, SeenLine, docx, pages, typeset};
use sha2::{Digest as _, Sha256};
use std::path::Path;
use std::process::Command;
use std::time::Instant;

const WIDTH: u32 = 4000;
const HEIGHT: u32 = 3000;
/// What this program does when it starts itself again, so that neither memory nor anything remembered is carried over
/// but the prints that are meant to be kept.
const TASK: &str = "MANY_PAGES_TASK";
const FOLDER: &str = "MANY_PAGES_FOLDER";

fn main() {
    if let (Ok(task), Ok(folder)) = (std::env::var(TASK), std::env::var(FOLDER)) {
        let folder = Path::new(&folder);
        match task.as_str() {
            "set" => set(folder),
            "docx" => edit(folder),
            "preview" => preview(folder),
            other => panic!("no task {other}"),
        }
        return;
    }
    for photographs in [120, 400] {
        let folder = std::env::temp_dir().join(format!("many-pages-{}-{photographs}", std::process::id()));
        std::fs::create_dir_all(folder.join("kept")).expect("a temporary folder");
        make(&folder, photographs);
        let well = [
            ("set", "cold, nothing kept"),
            ("set", "warm, prints kept"),
            ("preview", "looked at"),
            ("docx", "to edit"),
        ]
        .into_iter()
        .all(|(task, title)| {
            println!("{title}");
            let own = std::env::current_exe().expect("this program");
            let status = Command::new(own).env(TASK, task).env(FOLDER, &folder).status();
            status.is_ok_and(|status| status.success())
        });
        if photographs == 400 {
            others(&folder);
        }
        std::fs::remove_dir_all(&folder).expect("the temporary folder goes");
        assert!(well, "a run failed");
    }
}

fn options() -> Options {
    Options { paper: Paper::A4, ident: "bench".into(), made: jiff::civil::date(2026, 6, 5).at(0, 0, 0, 0) }
}

fn names(folder: &Path) -> Vec<String> {
    std::fs::read_to_string(folder.join("names")).expect("names").lines().map(str::to_owned).collect()
}

fn set(folder: &Path) {
    let document = document(&names(folder));
    let read = |name: &str| std::fs::read(folder.join(name));
    let kept = folder.join("kept");
    let begun = Instant::now();
    let pdf = typeset(&document, Pictures { read: &read, kept_in: Some(&kept) }, &options()).expect("typesets");
    println!(
        "  {:.2} s, {} pages, {:.1} MB of PDF, pictures not printed {}, peak memory {}",
        begun.elapsed().as_secs_f64(),
        pdf.pages,
        pdf.bytes.len() as f64 / 1e6,
        pdf.picture_faults.len(),
        peak_memory()
    );
}

fn edit(folder: &Path) {
    let document = document(&names(folder));
    let read = |name: &str| std::fs::read(folder.join(name));
    let kept = folder.join("kept");
    let begun = Instant::now();
    let made = docx(&document, Pictures { read: &read, kept_in: Some(&kept) }, &options()).expect("writes");
    println!(
        "  DOCX: {:.2} s, {:.1} MB, peak memory {}",
        begun.elapsed().as_secs_f64(),
        made.bytes.len() as f64 / 1e6,
        peak_memory()
    );
    std::fs::write(folder.join("report.docx"), made.bytes).expect("writes");
}

/// Lays the report out, changes a word of one finding in its middle, and waits until that page is drawn again.
fn preview(folder: &Path) {
    let mut document = document(&names(folder));
    let read = |name: &str| std::fs::read(folder.join(name));
    let kept = folder.join("kept");
    let pictures = Pictures { read: &read, kept_in: Some(&kept) };
    let begun = Instant::now();
    let first = pages(&document, pictures, &options()).expect("lays out");
    let page = first.count() / 2;
    println!("  first: {:.2} s, {} pages", begun.elapsed().as_secs_f64(), first.count());
    let middle = document.parts[0].findings.len() / 2;
    for change in ["changed once", "changed twice"] {
        document.parts[0].findings[middle].opinion.push_str(&format!("This was {change}. "));
        let begun = Instant::now();
        let again = pages(&document, pictures, &options()).expect("lays out");
        let svg = again.svg(page).expect("a page");
        println!(
            "  {change}: {:.3} s until its page is drawn again ({} kB), peak memory {}",
            begun.elapsed().as_secs_f64(),
            svg.len() / 1000,
            peak_memory()
        );
    }
}

/// Sends the DOCX through programs for any kind of document.
fn others(folder: &Path) {
    let tries: [(&str, &[&[&str]]); 2] = [
        ("LibreOffice, DOCX to PDF", &[&["soffice", "--headless", "--convert-to", "pdf", "report.docx"]]),
        (
            "pandoc and WeasyPrint, DOCX to HTML to PDF",
            &[
                &["pandoc", "report.docx", "--standalone", "--extract-media=.", "-o", "report.html"],
                &["python3", "-m", "weasyprint", "report.html", "report-html.pdf"],
            ],
        ),
    ];
    for (title, steps) in tries {
        println!("{title}");
        let begun = Instant::now();
        for step in steps {
            let done = Command::new(step[0]).args(&step[1..]).current_dir(folder).output();
            match done {
                Ok(done) if done.status.success() => {}
                Ok(done) => {
                    let why = String::from_utf8_lossy(&done.stderr);
                    println!("  not done: {} said {}", step[0], why.lines().last().unwrap_or("nothing"));
                    break;
                }
                Err(why) => {
                    println!("  not done: {} cannot be started ({why})", step[0]);
                    break;
                }
            }
            println!("  {}: {:.1} s so far", step[0], begun.elapsed().as_secs_f64());
        }
    }
    for file in ["report.pdf", "report-html.pdf"] {
        let size = std::fs::metadata(folder.join(file)).map(|about| about.len());
        println!("  {file}: {}", size.map_or("not made".to_owned(), |bytes| format!("{:.1} MB", bytes as f64 / 1e6)));
    }
}

/// Writes the photographs: one picture with noise, so that it is as hard to decode as a real one, in as many shades as
/// there are photographs.
fn make(folder: &Path, photographs: u32) {
    let begun = Instant::now();
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
    let mut jpeg = Vec::new();
    image::codecs::jpeg::JpegEncoder::new_with_quality(&mut jpeg, 85)
        .encode(&pixels, WIDTH, HEIGHT, image::ExtendedColorType::Rgb8)
        .expect("encodes");
    // Where the first step of each of the two tables of quantisation stands: the marker FF DB, its length of 67, a
    // number, then the steps.
    let tables: Vec<usize> =
        (0..1000).filter(|i| jpeg[*i..].starts_with(&[0xff, 0xdb, 0x00, 0x43])).map(|i| i + 5).collect();
    assert_eq!(tables.len(), 2, "one table for light and one for colour");
    let mut names = String::new();
    for n in 0..photographs {
        // Another first step makes other shades: each is a picture of its own, and as hard to decode.
        let mut own = jpeg.clone();
        own[tables[0]] += (n % 20) as u8;
        own[tables[1]] += (n / 20) as u8;
        let name: String = Sha256::digest(&own).iter().map(|b| format!("{b:02x}")).collect();
        std::fs::write(folder.join(&name), own).expect("writes");
        names.push_str(&name);
        names.push('\n');
    }
    std::fs::write(folder.join("names"), names).expect("writes");
    println!(
        "{photographs} photographs of {:.0} megapixels, {:.1} MB each, made in {:.1} s",
        f64::from(WIDTH * HEIGHT) / 1e6,
        jpeg.len() as f64 / 1e6,
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
        vessel_name: "Many Pages".into(),
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
