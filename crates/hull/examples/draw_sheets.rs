//! Draws the sheets of an invented boat into a folder, for looking at: `cargo run -p hull --example draw_sheets -- DIR`.

use drawing::Hatch;
use hull::measured::{MeasuredSection, Particulars};
use hull::sheets::{self, BackboneParts, Condition, Mark, MarkKind, Outline, Page};
use hull::{Along, Expansion, Layout, Lining, Patch, Place, Side, Stern};

fn main() -> std::io::Result<()> {
    let folder = std::env::args().nth(1).unwrap_or_else(|| ".".to_owned());
    let write = |name: &str, sheet: drawing::Sheet| std::fs::write(format!("{folder}/{name}.svg"), sheet.to_svg());
    let shell = |side, strake, from: f64, to: f64| {
        Place::Shell(Patch::strake(side, strake).between(Along::Frame(from), Along::Frame(to)))
    };
    let spot = |side, strake, at: f64| Place::Shell(Patch::spot(side, strake, Along::Frame(at)));
    let mut conditions = Vec::new();
    let mut marks = Vec::new();
    for side in [Side::Port, Side::Starboard] {
        conditions.extend([
            Condition::seen(shell(side, 1, 10.0, 16.0), Hatch::Close).word("soft"),
            Condition::seen(shell(side, 4, 20.0, 24.0), Hatch::Sparse).word("checks"),
            Condition::seen(shell(side, 9, 2.0, 5.0), Hatch::Solid),
            Condition::not_seen(Place::Shell(
                Patch::strake(side, 1).up_to(3).between(Along::Frame(26.0), Along::Frame(30.0)),
            ))
            .word("behind ballast"),
        ]);
        marks.extend([
            Mark::new(spot(side, 1, 12.5), MarkKind::Observation, "14"),
            Mark::new(spot(side, 2, 12.0), MarkKind::Draw, "D3"),
            Mark::new(spot(side, 6, 7.0), MarkKind::Photograph, "P22"),
            Mark::new(spot(side, 6, 7.6), MarkKind::Moisture, "24 %"),
            Mark::new(spot(side, 7, 18.0), MarkKind::Blow, "dull"),
            Mark::new(spot(side, 5, 15.5), MarkKind::Butt, ""),
            Mark::new(spot(side, 8, 22.5), MarkKind::Scarph, ""),
        ]);
    }
    let layout = Layout::schematic(9.2, 12, 34).expect("within range");
    write("schematic-port", sheets::shell(&layout, Side::Port, &conditions, &marks))?;
    write("schematic-starboard", sheets::shell(&layout, Side::Starboard, &conditions, &marks))?;
    write("schematic-pair", sheets::shell_pair(Page::A4, &layout, &conditions, &marks))?;
    write("schematic-phone", sheets::shell_on(Page::PHONE, &layout, Side::Port, &conditions, &marks))?;
    let frames = hull::Frame::evenly(34, 0.64, 8.7);
    let outline = Outline::schematic(9.2).expect("within range");
    let parts = BackboneParts::default();
    let found = [
        Condition::seen(Place::member("stem"), Hatch::Sparse),
        Condition::seen(Place::member("keel-bolt-3"), Hatch::Solid),
        Condition::seen(Place::member("deadwood-aft"), Hatch::Close),
        Condition::not_seen(Place::member("apron")),
        Condition::seen(Place::Frame { side: Side::Port, frame: 12 }, Hatch::Solid),
        Condition::seen(Place::Frame { side: Side::Port, frame: 13 }, Hatch::Close).word("cracked"),
        Condition::seen(Place::Floor { frame: 17 }, Hatch::Close),
        Condition::seen(Place::Beam { beam: 6 }, Hatch::Close),
        Condition::seen(
            Place::Deck {
                side: Side::Starboard,
                from: Along::Frame(20.0),
                to: Along::Frame(26.0),
                inner: 0.9,
                outer: 1.0,
            },
            Hatch::Close,
        )
        .word("soft"),
        Condition::seen(Place::Transom { from: -1.0, to: -0.3, low: 0.6, high: 0.85 }, Hatch::Close).word("soft"),
    ];
    let noted = [
        Mark::new(Place::member("keel-bolt-5"), MarkKind::Draw, "B5"),
        Mark::new(Place::member("sternpost"), MarkKind::Moisture, "28 %"),
        Mark::new(Place::Frame { side: Side::Starboard, frame: 9 }, MarkKind::Photograph, "P3"),
        Mark::new(Place::Transom { from: 0.2, to: 0.2, low: 0.3, high: 0.3 }, MarkKind::Observation, "31"),
    ];
    write("backbone", sheets::backbone(Page::REPORT, &outline, &parts, &found, &noted))?;
    write("framing", sheets::framing(Page::REPORT, &outline, &frames, &found, &noted))?;
    let house = [("coach roof".to_owned(), 2.6, 5.6, 0.75), ("cockpit".to_owned(), 6.2, 8.0, 0.55)];
    write("deck", sheets::deck(Page::REPORT, &outline, 18, &frames, &house, &found, &noted))?;
    write("transom", sheets::transom(Page::REPORT, &outline, &found, &noted))?;

    // From a table of offsets.
    let table = hull::Offsets::read(hull::offsets::EXAMPLE).expect("a table");
    let dinghy = table.surface(hull::Fairing::default()).expect("a surface");
    let dinghy_frames = hull::Frame::evenly(18, 0.3, 3.9);
    let boat = Expansion::new(dinghy.clone(), &Lining::Equal { strakes: 9 }, dinghy_frames).expect("lined off");
    let mut flat = boat.layout(hull::Basis::Offsets);
    flat.waterline = table.waterline_m.map(|w| boat.level_line(w)).unwrap_or_default();
    write("dinghy-pair", sheets::shell_pair(Page::A4, &flat, &[], &[]))?;
    let outline_of = Outline::of(&dinghy, hull::Basis::Offsets, table.waterline_m);
    let open_boat = BackboneParts { keel_bolts: None, rudder: true, keel_depth_m: None };
    write("dinghy-backbone", sheets::backbone(Page::REPORT, &outline_of, &open_boat, &[], &[]))?;
    write("dinghy-transom", sheets::transom(Page::REPORT, &outline_of, &[], &[]))?;

    // A hull fitted to an hour's measuring.
    let fitted = hull::measured::fit(&Particulars {
        length_m: 9.2,
        waterline_length_m: 7.6,
        beam_m: 2.75,
        rabbet_draft_m: 0.72,
        freeboards_m: [1.35, 0.82, 0.95],
        stern: Stern::Transom,
        transom_half_breadth_m: 0.95,
        stem: Vec::new(),
        stern_profile: Vec::new(),
        sections: vec![
            MeasuredSection {
                from_stem_m: 2.4,
                girth_m: Some(1.98),
                waterline_half_breadth_m: Some(0.72),
                ..Default::default()
            },
            MeasuredSection {
                from_stem_m: 4.8,
                girth_m: Some(2.25),
                waterline_half_breadth_m: Some(1.27),
                ..Default::default()
            },
            MeasuredSection {
                from_stem_m: 7.2,
                girth_m: Some(1.95),
                waterline_half_breadth_m: Some(0.98),
                ..Default::default()
            },
        ],
    })
    .expect("a boat");
    println!("{:#?}\n{:#?}\n{:#?}", fitted.residuals, fitted.assumed, fitted.warnings);
    println!("{:#?}", fitted.surface.hydrostatics(0.0));
    let boat =
        Expansion::new(fitted.surface.clone(), &Lining::Equal { strakes: 12 }, frames.clone()).expect("lined off");
    let mut layout = boat.layout(hull::Basis::Measured);
    layout.waterline = boat.level_line(0.0);
    write("measured-port", sheets::shell(&layout, Side::Port, &conditions, &marks))?;
    write("measured-pair", sheets::shell_pair(Page::A4, &layout, &conditions, &marks))?;
    // Invented moisture readings, wetter low down and round one soft place aft.
    let readings: Vec<sheets::Reading> = (0..36)
        .map(|i| {
            let (strake, frame) =
                (1 + (i * 5) % 11, 4.0 + f64::from((i * 7) % 29) * if i % 3 == 0 { 0.7 } else { 1.0 });
            let soft = (-((frame - 22.0) / 3.0).powi(2) - ((f64::from(strake) - 4.0) / 2.0).powi(2)).exp();
            let value = (24.0 - 0.6 * f64::from(strake) + 9.0 * soft).round();
            sheets::Reading {
                place: Patch::spot(Side::Port, strake as usize, Along::Frame(frame)),
                value,
                entry: String::new(),
            }
        })
        .collect();
    let quantity = sheets::Quantity {
        name: "moisture of the planking".to_owned(),
        unit: "%".to_owned(),
        sd: 1.0,
        reach_along_m: 0.8,
        reach_across_m: 0.35,
    };
    write("field", sheets::field(Page::REPORT, &layout, Side::Port, &quantity, &readings).expect("enough readings"))?;
    let outline = Outline::of(&fitted.surface, hull::Basis::Measured, Some(0.0));
    write("measured-backbone", sheets::backbone(Page::REPORT, &outline, &parts, &found, &noted))?;
    write("measured-framing", sheets::framing(Page::REPORT, &outline, &frames, &found, &noted))?;
    write("measured-transom", sheets::transom(Page::REPORT, &outline, &found, &noted))?;
    std::fs::write(
        format!("{folder}/measured-pair.dxf"),
        sheets::shell_pair(Page::A4, &layout, &conditions, &marks).to_dxf(),
    )?;
    Ok(())
}
