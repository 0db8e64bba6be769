//! Volume, surface and coefficients at a level waterline.

use super::offsets::{self, cautions, refused};
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use hull::Fairing;

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "hydrostatics",
    title: "Hydrostatics of the hull",
    question: "How much does she displace at this waterline, and what shape is what she displaces?",
    version: 1,
    flags: &[
        Flag::required("offsets", "table of offsets", FlagKind::TextFile),
        Flag::optional(
            "waterline-m",
            "height of the waterline in the table's own heights",
            FlagKind::Length { unit: "m", least: -100.0, greatest: 100.0 },
        ),
        Flag::or(
            "offsets-sd-mm",
            "uncertainty of the offsets; 0 runs the surface through them",
            FlagKind::Length { unit: "mm", least: 0.0, greatest: 100.0 },
            "0",
        ),
    ],
    figures: &[
        Figure { key: "volume_m3", label: "volume displaced", unit: "m³", decimals: 3 },
        Figure { key: "wetted_surface_m2", label: "wetted surface", unit: "m²", decimals: 2 },
        Figure { key: "waterplane_m2", label: "waterplane", unit: "m²", decimals: 2 },
        Figure { key: "lcb_m", label: "centre of buoyancy, in the table's x", unit: "m", decimals: 3 },
        Figure { key: "lcf_m", label: "centre of flotation, in the table's x", unit: "m", decimals: 3 },
        Figure { key: "kb_m", label: "centre of buoyancy above the lowest point", unit: "m", decimals: 3 },
        Figure { key: "bmt_m", label: "metacentre above buoyancy, athwart", unit: "m", decimals: 3 },
        Figure { key: "bml_m", label: "metacentre above buoyancy, lengthwise", unit: "m", decimals: 2 },
        Figure { key: "waterline_length_m", label: "length on the waterline", unit: "m", decimals: 3 },
        Figure { key: "waterline_beam_m", label: "breadth on the waterline", unit: "m", decimals: 3 },
        Figure { key: "draft_m", label: "draft to the lowest point given", unit: "m", decimals: 3 },
        Figure { key: "greatest_section_m2", label: "fullest section", unit: "m²", decimals: 3 },
        Figure { key: "cb", label: "block coefficient", unit: "", decimals: 4 },
        Figure { key: "cp", label: "prismatic coefficient", unit: "", decimals: 4 },
        Figure { key: "cm", label: "coefficient of the fullest section", unit: "", decimals: 4 },
        Figure { key: "cw", label: "waterplane coefficient", unit: "", decimals: 4 },
        Figure { key: "fit_rms_mm", label: "surface off the offsets, root mean square", unit: "mm", decimals: 1 },
        Figure { key: "fit_greatest_mm", label: "surface off the offsets, at most", unit: "mm", decimals: 1 },
    ],
    equation: "a bicubic B-spline surface through the offsets, summed by Gauss's rule: V = 2∫∫y dx dz, S = 2∫∫dA, \
               BM = (2/3)∫y³dx / V",
    sources: &[
        "C. de Boor, A Practical Guide to Splines (1978): the surface",
        "Principles of Naval Architecture: definitions of the figures (common practice)",
    ],
    not_covered: &[
        "Keel, deadwood, ballast and rudder below the rabbet, unless the offsets include them.",
        "Weight, trim and stability: metacentric height needs the centre of gravity as well.",
    ],
    example: &[("offsets", hull::offsets::EXAMPLE), ("waterline-m", "0.40")],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let read = offsets::read(inputs, Fairing { sd_mm: inputs.number("offsets-sd-mm").unwrap_or(0.0) })?;
    let waterline = inputs.number("waterline-m").or(read.offsets.waterline_m).ok_or_else(|| Refusal::Missing {
        flag: "waterline-m".to_owned(),
        accepted: "a height in the table's own heights, or a row `waterline` in the table".to_owned(),
    })?;
    let h = read.surface.hydrostatics(waterline).map_err(|fault| refused("waterline-m", waterline, &fault))?;
    let mut answer = Answer::new()
        .with("volume_m3", h.volume_m3)
        .with("wetted_surface_m2", h.wetted_surface_m2)
        .with("waterplane_m2", h.waterplane_m2)
        .with("lcb_m", read.offsets.table_x_m(h.lcb_x_m))
        .with("lcf_m", read.offsets.table_x_m(h.lcf_x_m))
        .with("kb_m", h.kb_m)
        .with("bmt_m", h.bmt_m)
        .with("bml_m", h.bml_m)
        .with("waterline_length_m", h.waterline_length_m)
        .with("waterline_beam_m", h.waterline_beam_m)
        .with("draft_m", h.draft_m)
        .with("greatest_section_m2", h.greatest_section_m2)
        .with("cb", h.cb)
        .with("cp", h.cp)
        .with("cm", h.cm)
        .with("cw", h.cw)
        .with("fit_rms_mm", read.fit_rms_mm)
        .with("fit_greatest_mm", read.fit_greatest_mm);
    if h.over_sheer {
        answer = answer.caution(
            "The water stands above the sheer, or above the top of the table, in places; the figures end there.",
        );
    }
    if h.bottom_flat_m2 > 0.02 * h.wetted_surface_m2 {
        answer = answer.caution(format!(
            "The lowest points lie off the centre plane; a flat of {:.2} m² between them is counted as wetted.",
            h.bottom_flat_m2
        ));
    }
    Ok(cautions(answer, &read))
}
