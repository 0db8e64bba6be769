//! An invented boat, her pictures and her report; also one with nothing and one that means harm.

use drawing::{Anchor, Hatch, Pen, Shape, Sheet};
use report::*;
use sha2::{Digest as _, Sha256};
use std::collections::BTreeMap;
use std::io;

/// Pictures by digest, as a store would give them.
#[derive(Default)]
pub struct Album(pub BTreeMap<String, Vec<u8>>);

impl Album {
    /// Keeps a picture and returns its digest.
    pub fn keep(&mut self, bytes: Vec<u8>) -> String {
        let name: String = Sha256::digest(&bytes).iter().map(|b| format!("{b:02x}")).collect();
        self.0.insert(name.clone(), bytes);
        name
    }

    pub fn read(&self, name: &str) -> io::Result<Vec<u8>> {
        self.0.get(name).cloned().ok_or_else(|| io::Error::new(io::ErrorKind::NotFound, "no such file"))
    }
}

/// A picture of planks, drawn by arithmetic.
pub fn planks(width: u32, height: u32, shade: u8) -> Vec<u8> {
    let picture = image::RgbImage::from_fn(width, height, |x, y| {
        let plank = y * 7 / height;
        let seam = (y * 7) % height < height / 30;
        let grain = ((x / 3 + plank * 37) % 17) as u8;
        let base = if seam { 40 } else { shade.saturating_add(plank as u8 * 6).saturating_add(grain) };
        image::Rgb([base, base.saturating_sub(12), base.saturating_sub(30)])
    });
    let mut out = Vec::new();
    image::codecs::jpeg::JpegEncoder::new_with_quality(&mut out, 85).encode_image(&picture).expect("encodes");
    out
}

pub fn options() -> Options {
    Options {
        paper: Paper::A4,
        ident: "test survey, version 1".into(),
        made: jiff::civil::date(2026, 6, 5).at(9, 30, 0, 0),
    }
}

pub fn emptiest() -> Document {
    Document::default()
}

fn profile(width_mm: f64, height_mm: f64, strakes: u32) -> Sheet {
    let mut sheet = Sheet::new(
        width_mm,
        height_mm,
        "Plank plan",
        "Port side laid flat: seven strakes; the garboard is hatched closely from frame 6 to frame 9, strake 4 sparsely.",
    );
    let step = height_mm / f64::from(strakes);
    for i in 0..strakes {
        let y = f64::from(i) * step + 1.0;
        let hatch = match i {
            3 => Hatch::Sparse,
            6 => Hatch::Close,
            _ => Hatch::Bare,
        };
        sheet.add(Shape::rectangle(2.0, y, width_mm - 4.0, step - 1.5).pen(Pen::THIN).hatch(hatch));
        sheet.add(Shape::text((4.0, y + step * 0.6), 3.0, format!("strake {}", strakes - i)));
    }
    sheet.add(Shape::text((width_mm / 2.0, height_mm - 1.0), 3.0, "stem to the right").anchored(Anchor::Middle));
    sheet
}

pub fn fullest(album: &mut Album) -> Document {
    let portrait = album.keep(planks(1800, 1100, 120));
    let garboard = album.keep(planks(1600, 1200, 90));
    let seam = album.keep(planks(1200, 1600, 110));
    let bolt = album.keep(planks(1600, 1200, 140));
    let spare = album.keep(planks(800, 600, 160));
    let cut_short = album.keep(planks(900, 700, 150)[..9000].to_vec());

    let seen = |observation, place: &str, said| SeenLine { observation, place: place.into(), said };
    let garboard_finding = Finding {
        number: 1,
        title: "Garboard decayed along the lower edge".into(),
        place: "Garboard, port, frames 6 to 9".into(),
        mark: Mark::Close,
        condition: "work needed".into(),
        serious: true,
        seen: vec![
            seen(1, "port, garboard, frames 6 to 9", Said::fact("Sounded dull over 900 mm of the lower edge; the strakes above rang.")),
            seen(2, "port, garboard, frame 7", Said::fact("The point of the knife went in 14 mm (9/16 in); a sliver broke short.")),
            seen(3, "port, garboard", Said::hearsay("The owner", "That plank was renewed by the yard about twelve years ago.")),
        ],
        reckonings: vec![1],
        proposed: vec![Said::inference("Decayed is the most probable state of the plank (0.81), then repaired before (0.09). The knife weighed most, 6.3 decibans for decay against loose.")],
        opinion: "The lower edge of the garboard is decayed from frame 6 to frame 9. The keel behind it was not reached and may be affected.".into(),
        sure: "very likely (90 to 99 %)".into(),
        more: vec![
            Row::new("Extent", "About 900 mm (2 ft 11 7/16 in) of the lower 60 mm (2 3/8 in)."),
            Row::new("Likely cause", "Fresh water lying between garboard and keel under the cabin sole, with little air."),
            Row::new("Meaning", "The plank may open at the keel seam when she works in a seaway."),
        ],
        alternatives: vec![Alternative { what: "a loose plank on sound fastenings".into(), against: "it did not move under the lever, and the knife went in".into() }],
        recommendations: vec![1, 2],
        pictures: vec![Picture { observation: Some(1), ..Picture::new(garboard, "Garboard, port side, at frame 7: the marked length sounded dull.", "Weathered bottom planking; a chalk line marks 900 mm of the lowest plank.") }],
    };
    let seam_finding = Finding {
        number: 2,
        title: "Seams between strakes 3 and 4 open".into(),
        place: "Planking, starboard, strakes 3 and 4, frames 10 to 16".into(),
        mark: Mark::Sparse,
        condition: "watch".into(),
        seen: vec![seen(
            4,
            "starboard, strake 4, frames 10 to 16",
            Said::fact("Seam gap 3 mm (1/8 in) at frame 12, by feeler gauge."),
        )],
        opinion: "The gap is what eight weeks ashore in dry wind would give. It should close afloat.".into(),
        sure: "likely (66 to 90 %)".into(),
        recommendations: vec![3],
        pictures: vec![
            Picture::new(
                seam,
                "Seam at frame 12, gauge in place.",
                "A feeler gauge in an open seam between two planks.",
            ),
            Picture::new(cut_short, "The same seam from further off.", "Bottom planking from two metres away."),
            Picture::new(bolt.clone(), "Strake 3 from inside.", "Inner face of a plank between two frames."),
        ],
        ..Finding::default()
    };
    let bolt_finding = Finding {
        number: 3,
        title: "Keel bolt 4 wasted".into(),
        place: "Keel bolts, no. 4".into(),
        mark: Mark::Solid,
        condition: "failed".into(),
        serious: true,
        seen: vec![seen(5, "no. 4", Said::fact("Keel bolt drawn: wasted, 11 mm left of 19 mm."))],
        opinion:
            "The bolt no longer does its work. One bolt of nine was drawn; the others are of the same age and metal."
                .into(),
        sure: "virtually certain (above 99 %)".into(),
        recommendations: vec![1],
        pictures: vec![
            Picture::new(bolt, "Keel bolt 4 after drawing.", "A rusty bolt on a bench, waisted in the middle."),
            Picture::new("0".repeat(64), "Its hole.", ""),
        ],
        ..Finding::default()
    };

    let observation = |number, place: &str, method: &str, said, findings: Vec<u32>| Observation {
        number,
        place: place.into(),
        method: method.into(),
        said,
        entry: format!("00000000{number:04x}"),
        when: "3 June 2026, 10:42".into(),
        findings,
        pictures: u32::from(number == 1),
    };
    let mut observations = vec![
        observation(
            1,
            "Garboard, port, frames 6 to 9",
            "sound",
            Said::fact("dull or hollow. Sounded dull over 900 mm of the lower edge; the strakes above rang."),
            vec![1],
        ),
        observation(
            2,
            "Garboard, port, frame 7",
            "probe",
            Said::fact("a sliver breaks short; point goes in 14 mm (9/16 in)"),
            vec![1],
        ),
        observation(
            3,
            "Garboard, port",
            "ask",
            Said::hearsay("The owner", "That plank was renewed by the yard about twelve years ago."),
            vec![1],
        ),
        observation(
            4,
            "Planking, starboard, strake 4, frames 10 to 16",
            "measure",
            Said::fact("seam gap 3 mm (1/8 in)"),
            vec![2],
        ),
        observation(
            5,
            "Keel bolts, no. 4",
            "draw a fastening",
            Said::fact("keel bolt drawn: wasted, 11 mm left of 19 mm"),
            vec![3],
        ),
    ];
    observations.extend((6..=64).map(|n| {
        observation(
            n,
            &format!("Planking, port, strake {}, frame {}", n % 9 + 1, n % 24 + 1),
            "sound",
            Said::fact("rings"),
            vec![],
        )
    }));

    Document {
        title: "Pre-purchase survey".into(),
        vessel_name: "Invented Tern".into(),
        surveyed: "3 June 2026".into(),
        reference: "2026-017".into(),
        standing: Standing::Issued { version: 1, date: "5 June 2026".into() },
        front: Front {
            subtitle: "carvel cutter, built in 1938".into(),
            rows: vec![
                Row::new("Prepared for", "C. Example, intending buyer"),
                Row::new("Purpose", "Pre-purchase"),
                Row::new("Use intended", "Coastal cruising with a crew of three"),
                Row::new("Waters intended", "Kattegat and western Baltic"),
                Row::new("Seen at", "An invented yard, ashore on her keel since 6 April 2026"),
            ],
            surveyor: Some(Person { name: "A. Surveyor".into(), qualification: "surveyor of wooden craft".into() }),
            picture: Some(Picture::new(portrait, "Invented Tern ashore, from the port quarter.", "A small wooden cutter on the hard, seen from behind and to the left.")),
            invented: "Boat, people and places in this report are invented.".into(),
        },
        summary: Summary {
            purpose: vec!["C. Example asked for the condition of Invented Tern before buying her for coastal cruising in the Kattegat and western Baltic.".into()],
            found: vec![
                SummaryLine { words: "Keel bolt 4 has failed; one bolt of nine was drawn.".into(), finding: Some(3), recommendation: None },
                SummaryLine { words: "The port garboard is decayed along its lower edge for 900 mm (2 ft 11 7/16 in).".into(), finding: Some(1), recommendation: None },
                SummaryLine { words: "The starboard seams at strakes 3 and 4 are open 3 mm (1/8 in), as a dry berth explains.".into(), finding: Some(2), recommendation: None },
            ],
            meaning: vec![SummaryLine { words: "She is not fit to float as she stands. With the bolts and the garboard made good she would suit the use intended.".into(), finding: None, recommendation: None }],
            first: vec![
                UrgentLine { when: "before she floats".into(), words: "Draw the other eight keel bolts; renew those wasted.".into(), recommendation: 1 },
                UrgentLine { when: "before she floats".into(), words: "Renew the port garboard from frame 4 to frame 11.".into(), recommendation: 2 },
            ],
            not_seen: vec!["The keel under the ballast and the frame heels under the cabin sole were not seen.".into()],
            money: vec!["The work before she floats is put at EUR 6,900 to EUR 12,400, most likely EUR 9,100.".into()],
        },
        scope: vec![
            Paragraphs { title: "Asked for".into(), words: vec!["Hull, deck and rig of the vessel; no opinion of the engine beyond its bed.".into()] },
            Paragraphs { title: "Not asked for".into(), words: vec!["Engine internals.".into(), "Electrical installation.".into()] },
            Paragraphs { title: "Conditions".into(), words: vec!["3 June 2026, 09:00 to 16:30. Dry, wind light, 18 °C, 55 % relative humidity. Present: the surveyor and the owner.".into()] },
        ],
        not_seen: vec![
            NotSeen { what: "Keel, upper face under ballast".into(), why: "Iron ballast cast in place".into(), needs: "Lifting the ballast; half a day for two".into() },
            NotSeen { what: "Frame heels, frames 8 to 14".into(), why: "Cabin sole fixed down".into(), needs: "Lifting two sole boards, with the owner's leave".into() },
        ],
        coverage: vec![Table {
            title: "How much was seen".into(),
            columns: vec![Column::words("Group", 2.0), Column::figures("Members", 1.0), Column::figures("Seen", 1.0), Column::figures("Not seen", 1.0)],
            rows: vec![vec!["Planking".into(), "18".into(), "18".into(), "0".into()], vec!["Frames".into(), "34".into(), "27".into(), "7".into()]],
            note: "Counts of members of her own list.".into(),
        }],
        definitions: vec![Row::new("Numbering", "Strakes are counted from the garboard (1), frames from the stem (1). Port is left, looking forward.")],
        particulars: vec![
            Row::new("Length over all", "9.140 m (29 ft 11 13/16 in)"),
            Row::new("Beam", "2.740 m (8 ft 11 7/8 in)"),
            Row::new("Planking", "larch, 28 mm (1 1/8 in)"),
            Row::new("Plank fastenings", "copper nails and roves"),
        ],
        history: vec![Said::hearsay("The owner", "She was laid up from 1979 to 1994.")],
        plans: vec![
            Plan { caption: "Plank plan, port side.".into(), sheet: profile(150.0, 70.0, 7), key: vec![(Mark::Sparse, "watch".into()), (Mark::Close, "work needed".into())] },
            Plan { caption: "Shell expansion, port side.".into(), sheet: profile(400.0, 120.0, 9), key: vec![] },
        ],
        parts: vec![
            Part { title: "Planking".into(), findings: vec![garboard_finding, seam_finding], seen_only: vec![Row::new("Sheer strake", "by sight and hammer, both sides")] },
            Part { title: "Fastenings".into(), findings: vec![bolt_finding], seen_only: vec![] },
        ],
        reckonings: vec![Reckoning {
            number: 1,
            title: "Equilibrium moisture content of wood in air".into(),
            inputs: vec![Row::new("Air temperature", "18 °C"), Row::new("Relative humidity", "55 %")],
            results: vec![Row::new("Moisture content", "10.2 %")],
            equation: "Hailwood and Horrobin, one hydrate".into(),
            sources: vec!["Wood Handbook, FPL-GTR-190 (2010), equation 4-5".into()],
            cautions: vec!["Salt in the wood raises it.".into()],
            note: "Planking above the waterline was near this.".into(),
            findings: vec![1],
        }],
        recommendations: vec![
            Recommendation { number: 3, urgency: Urgency::Watch, date: Some("1 October 2026".into()), date_order: "2026-10-01".into(), title: "Measure the starboard seams again".into(), action: "Measure the seam between strakes 3 and 4 at frames 10, 12 and 16 after a month afloat.".into(), findings: vec![2], ..Recommendation::default() },
            Recommendation { number: 1, urgency: Urgency::BeforeSheFloats, title: "Keel bolts".into(), action: "Draw the other eight keel bolts. Renew every bolt that has lost more than a tenth of its diameter.".into(), more: vec![Row::new("Why", "One of nine was drawn and had failed."), Row::new("By whom", "A yard used to bolts of this size."), Row::new("Shown by", "Old bolts kept for the surveyor to see.")], findings: vec![1, 3], ..Recommendation::default() },
            Recommendation { number: 2, urgency: Urgency::BeforeSheFloats, title: "Port garboard".into(), action: "Renew from frame 4 to frame 11 with scarfs or butts clear of those in the next strake.".into(), findings: vec![1], ways: Table { title: "Ways of doing it".into(), columns: vec![Column::words("Way", 1.0), Column::words("Lasts", 1.0)], rows: vec![vec!["Leave and watch".into(), "not known".into()], vec!["Renew (advised)".into(), "thirty years".into()]], note: String::new() }, ..Recommendation::default() },
            Recommendation { number: 4, urgency: Urgency::AtTheNextHaulOut, date: Some("1 May 2027".into()), date_order: "2027-05-01".into(), title: "Draw ten plank fastenings".into(), action: "Draw five a side below the waterline.".into(), findings: vec![2], ..Recommendation::default() },
        ],
        estimate: Some(Estimate {
            currency: "EUR".into(),
            lines: vec![
                EstimateLine { item: "Draw and renew keel bolts".into(), quantity: "9".into(), low: "2,400".into(), likely: "3,100".into(), high: "4,900".into(), recommendation: Some(1), note: "Rates of an invented yard, May 2026".into() },
                EstimateLine { item: "Garboard, port".into(), quantity: "3.2 m".into(), low: "3,800".into(), likely: "5,000".into(), high: "8,000".into(), recommendation: Some(2), note: String::new() },
            ],
            totals: vec![Row::new("Whole, one in ten below", "EUR 6,900"), Row::new("Whole, as likely above as below", "EUR 9,100"), Row::new("Whole, one in ten above", "EUR 12,400")],
            notes: vec!["Tax, haul-out and storage are not included.".into()],
            ..Estimate::default()
        }),
        value: Some(Value {
            rows: vec![Row::new("Definition", "Price between a willing buyer and a willing seller, neither forced, both knowing the facts."), Row::new("On", "3 June 2026"), Row::new("Range", "EUR 9,000 to EUR 16,000, middle EUR 12,000")],
            reasoning: "Three comparable sales were found; cost and income were left out as unreliable for an old wooden yacht.".into(),
            ..Value::default()
        }),
        statement: Some(Statement {
            words: vec![Said::fact("I have no interest in the vessel or in her sale. My fee does not depend on what I found."), Said::fact("This report is for the addressees named, for the purpose named, and describes her as she was on the day.")],
            signed_by: Person { name: "A. Surveyor".into(), qualification: "surveyor of wooden craft".into() },
            place_and_date: "5 June 2026".into(),
        }),
        observations,
        records: vec![Table {
            title: "Fastenings drawn".into(),
            columns: vec![Column::words("Place", 2.0), Column::words("Fastening", 2.0), Column::words("Found", 1.5), Column::figures("Left, mm", 1.0)],
            rows: vec![vec!["no. 4".into(), "keel bolt, iron".into(), "wasted".into(), "11".into()]],
            note: "1 of 9 keel bolts drawn: too few to speak for the rest.".into(),
        }],
        pictures: vec![Picture::new(spare, "Deck, looking forward.", "")],
        glossary: vec![Term { word: "Garboard".into(), meaning: "The plank next to the keel.".into() }, Term { word: "Strake".into(), meaning: "One run of planking from stem to stern.".into() }],
        sources: vec!["Wood Handbook: wood as an engineering material. FPL-GTR-190, US Forest Products Laboratory, 2010.".into()],
        cautions: vec!["This report supports judgement; it replaces neither local codes nor licensed engineers.".into()],
        versions: vec![Change { version: "1".into(), date: "5 June 2026".into(), change: "First issue.".into(), told: "C. Example".into() }],
        digest: Some(Digest { sha256: "5f".repeat(32), entries: 143, how: vec!["Anyone who holds the field book can work out its digest and compare.".into()] }),
        dated: "made from the field book as of 3 June 2026, 16:30 UTC".into(),
        letterhead: Letterhead { lines: vec!["An Invented Practice".into(), "No Street 1".into()], licences: vec!["member of nothing".into()] },
        limitations: vec![Paragraphs { title: "Not opened".into(), words: vec!["Nothing was taken apart beyond what was agreed.".into()] }],
        evidence: vec![Evidence { finding: 1, title: "Garboard decayed along the lower edge".into(), rows: vec![Row::new("Speaks for it", "Observations 1 and 2."), Row::new("Not done", "No bore.")] }],
        questions: vec![Question { reckoning: 1, seen: "An old graving piece in the garboard".into(), explanations: vec![Explanation { words: "A stone".into(), rows: vec![Row::new("Signs for it", "A bruise beside it.")] }], note: "To be asked.".into() }],
        then_and_now: Some(ThenAndNow {
            words: vec!["The survey before was of 2021.".into()],
            tables: vec![Table { title: "Measured twice".into(), columns: vec![Column::words("Place", 2.0), Column::figures("Then, mm", 1.0), Column::figures("Now, mm", 1.0)], rows: vec![vec!["Sheer seam".into(), "2".into(), "3".into()]], note: String::new() }],
            notes: vec!["The gauge was another.".into()],
        }),
        changes: Some(Changes { since: "Since version 1 of 5 June 2026.".into(), lines: vec![Row::new("Added", "Finding 3.")] }),
        certificate: Some(Certificate { rows: vec![Row::new("Version", "2")], entries: 143, sha256: "5f".repeat(32), public_key: "ab".repeat(32), words: vec!["Keep the file as it came.".into()], against: vec![Row::new("Members covered", "A limited inspection was agreed.")] }),
        ..Document::default()
    }
}

/// Text that tries to get out of its place.
pub const HOSTILE: [&str; 10] = [
    "\"quotes\" 'single' `back` \\ backslash",
    "<b>bold</b> <script>alert(1)</script> &amp; &lt;",
    "#set page(width: 1cm) #panic(\"out\") #include \"/etc/hosts\"",
    "$ x^2 / 0 $ *strong* _emph_ = heading @label <label> [content] #[",
    "// comment /* open comment",
    "שלום עולם and قارب خشبي",
    "⛵ 🛶 👩‍🔧 ⚠️ ✓",
    "中文 字 \u{202e}turned\u{202c} \u{0}\u{7}\u{1b}[31m",
    "z\u{301}\u{302}\u{303}\u{304}\u{305}\u{306}\u{307}",
    "\u{e000}\u{fdd0}\u{feff}\u{200b}\u{ad}",
];

/// A report every text of which is hostile.
pub fn hostile() -> Document {
    let all = HOSTILE.join(" ");
    let long = "x".repeat(10_000);
    let t = || all.clone();
    Document {
        title: t(),
        vessel_name: t(),
        surveyed: t(),
        reference: long.clone(),
        front: Front {
            subtitle: t(),
            rows: vec![Row::new(t(), t()), Row::new(long.clone(), long.clone())],
            surveyor: Some(Person { name: t(), qualification: t() }),
            picture: Some(Picture::new("../../etc/passwd", t(), t())),
            invented: t(),
        },
        summary: Summary {
            purpose: vec![t(), long.clone()],
            found: (0..40).map(|_| SummaryLine { words: t(), finding: Some(7), recommendation: Some(9) }).collect(),
            first: (0..40).map(|_| UrgentLine { when: t(), words: long.clone(), recommendation: 99 }).collect(),
            ..Summary::default()
        },
        scope: vec![Paragraphs { title: t(), words: vec![t(), long.clone()] }],
        not_seen: vec![NotSeen { what: t(), why: long.clone(), needs: t() }],
        parts: vec![Part {
            title: t(),
            findings: vec![
                Finding {
                    number: 7,
                    title: t(),
                    place: t(),
                    condition: t(),
                    serious: true,
                    seen: vec![SeenLine { observation: 5, place: t(), said: Said::hearsay(t(), t()) }],
                    opinion: long.clone(),
                    alternatives: vec![Alternative { what: t(), against: t() }],
                    more: vec![Row::new(t(), t())],
                    recommendations: vec![404],
                    ..Finding::default()
                },
                Finding { number: 7, title: long.clone(), ..Finding::default() },
            ],
            seen_only: vec![],
        }],
        observations: vec![Observation {
            number: 5,
            place: t(),
            method: t(),
            said: Said::fact(long.clone()),
            entry: t(),
            when: t(),
            ..Observation::default()
        }],
        records: vec![Table {
            title: t(),
            columns: vec![Column::words(t(), 1.0), Column::figures(t(), 0.0)],
            rows: vec![vec![long.clone()], vec![t(), t(), t()]],
            note: t(),
        }],
        glossary: vec![Term { word: t(), meaning: long }],
        ..Document::default()
    }
}
