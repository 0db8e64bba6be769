//! Metals, corrosion, pairs and protection.

use fastening::corrosion::{diameter_range_mm_per_year, rates, table};
use fastening::protection::{Protected, read};
use fastening::{Mark, galvanic, metal};

/// Published: steel under water 0.035 mm a side a year (ERDC/CRREL LR-03-19), aluminium bronze C60600 0.7 to 1.1 mpy (Reinhart
/// 1976 Table 19), copper-nickel 0.5 mpy at a year and 0.05 mpy after 3 to 7 years (Tuthill 1987).
#[test]
fn rates_lie_within_what_is_published() {
    let of = |name: &str| diameter_range_mm_per_year(metal::find(name).unwrap()).unwrap();
    let (low, high) = of("mild steel");
    assert!(low == 0.07 && high <= 0.26, "{low} {high}");
    let mpy = 0.0254;
    let bronze = rates(metal::find("aluminium-bronze").unwrap());
    assert!(bronze.iter().all(|r| r.mm_per_year.0 >= 0.7 * mpy - 1e-3 && r.mm_per_year.1 <= 0.05));
    let (low, high) = of("copper");
    assert!((low - 2.0 * 0.05 * mpy).abs() < 1e-3 && (high - 2.0 * 0.5 * mpy).abs() < 2e-3);
    for rate in table() {
        assert!(rate.mm_per_year.0 > 0.0 && rate.mm_per_year.0 <= rate.mm_per_year.1 && !rate.source.is_empty());
    }
}

#[test]
fn no_mean_rate_is_offered_where_none_can_be_used() {
    assert!(rates(metal::find("stainless").unwrap()).is_empty());
    assert!(diameter_range_mm_per_year(metal::find("monel").unwrap()).is_none());
    assert!(fastening::corrosion::hidden(metal::find("stainless").unwrap()).contains("pit"));
}

#[test]
fn metals_are_found_by_trade_names_and_say_when_from_memory() {
    assert_eq!(metal::find("Silicon bronze").unwrap().id, "silicon-bronze");
    assert_eq!(metal::find("iron").unwrap().id, "mild-steel");
    assert!(metal::find("bronze").unwrap().caution().unwrap().contains("from memory"));
    assert!(metal::find("stainless-316").unwrap().mark == Mark::Read);
    let unknown = metal::find("unobtainium").unwrap_err().to_string();
    assert!(unknown.contains("unobtainium") && unknown.contains("silicon-bronze"), "{unknown}");
    for m in metal::table() {
        assert!(m.yield_mpa.0 <= m.ultimate_mpa.0 && m.ultimate_mpa.0 <= m.ultimate_mpa.1, "{}", m.id);
    }
}

#[test]
fn steel_corrodes_for_bronze_and_sources_are_never_mixed() {
    let pairs = galvanic::pairs("silicon bronze", "mild steel").unwrap();
    assert_eq!(pairs.len(), 2);
    for pair in &pairs {
        assert!(pair.corrodes.metal.contains("steel") && pair.corrodes.source == pair.protected.source);
        assert!(pair.difference_mv.0 > 200.0 && pair.reading.contains("corrodes for"));
    }
    // Professional BoatBuilder no. 100: silicon bronze -260 to -290, mild steel -600 to -710.
    assert_eq!(pairs[0].difference_mv, (310.0, 450.0));
    let close = galvanic::pairs("silicon bronze", "manganese bronze").unwrap();
    assert!(close[0].reading.contains("little"), "{:?}", close[0]);
    assert!(galvanic::pairs("silicon bronze", "graphite").is_err(), "no one source lists both");
    assert!(galvanic::pairs("cheese", "zinc").is_err());
}

#[test]
fn too_much_protection_is_said_with_what_it_does_to_wood() {
    let over = read(-720.0, Protected::Bronze).unwrap();
    assert_eq!((over.over_by_mv, over.short_by_mv), (120.0, 0.0));
    assert!(over.sentences[0].contains("over-protected") && over.sentences[0].contains("softens the wood"));
    let short = read(-400.0, Protected::Bronze).unwrap();
    assert_eq!((short.over_by_mv, short.short_by_mv), (0.0, 150.0));
    let right = read(-575.0, Protected::Bronze).unwrap();
    assert_eq!((right.over_by_mv, right.short_by_mv), (0.0, 0.0));
    let conflict = read(-600.0, Protected::Steel).unwrap();
    assert!(conflict.sentences.iter().any(|s| s.contains("cannot have both")), "{:?}", conflict.sentences);
    assert!(read(-5000.0, Protected::Bronze).is_err());
}
