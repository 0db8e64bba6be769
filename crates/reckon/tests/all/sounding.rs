//! Blows in a recording, through the topic `blows`.

use reckon::{Inputs, Reckoned, Refusal, find};
use serde_json::Value;

/// An invented walk without talk as WAV, and the stretches of its reference blows.
fn walk() -> (Vec<u8>, String, usize) {
    let setting =
        rehearsal::Setting { seed: 981, seconds: 120.0, voice: rehearsal::Voice::Silent, ..Default::default() };
    let walk = rehearsal::Walk::new(&setting);
    let mut bytes = Vec::new();
    let data = walk.samples.len() as u32 * 2;
    bytes.extend(b"RIFF");
    bytes.extend((36 + data).to_le_bytes());
    bytes.extend(b"WAVEfmt ");
    for part in [16_u32.to_le_bytes().as_slice(), &1_u16.to_le_bytes(), &1_u16.to_le_bytes(), &44_100_u32.to_le_bytes()]
    {
        bytes.extend(part);
    }
    for part in
        [88_200_u32.to_le_bytes().as_slice(), &2_u16.to_le_bytes(), &16_u16.to_le_bytes(), b"data", &data.to_le_bytes()]
    {
        bytes.extend(part);
    }
    for s in &walk.samples {
        bytes.extend(((s * 32767.0) as i16).to_le_bytes());
    }
    let ends = walk.blows.iter().filter(|b| b.reference).map(|b| b.time_s).fold(0.0, f64::max);
    (bytes, format!("0-{:.1}", ends + 0.2), walk.blows.len())
}

fn reckon(bytes: Vec<u8>, pairs: &[(&str, &str)]) -> Result<Reckoned, Refusal> {
    let topic = find("blows").expect("a topic");
    topic.reckon(Inputs::read(topic, pairs.iter().copied())?.with_bytes(topic, "audio", bytes)?)
}

fn blows(reckoned: &Reckoned) -> Vec<Value> {
    reckoned.answer.results["blows"].as_array().expect("a list").clone()
}

#[test]
fn blows_have_times_and_with_references_probabilities() {
    let (bytes, reference, truths) = walk();
    let reckoned = reckon(bytes, &[("reference", &reference)]).unwrap();
    let all = blows(&reckoned);
    assert!(all.len() * 10 >= truths * 9 && all.len() <= truths + 2, "{} of {truths}", all.len());
    assert!(reckoned.answer.results["reference_count"].as_u64().unwrap() >= 6);
    for blow in &all {
        for key in ["time_s", "loudness_db", "centroid_hz", "dominant_hz", "probability_dull"] {
            assert!(blow[key].is_f64(), "{key}: {blow}");
        }
        assert!((0.0..=1.0).contains(&blow["probability_dull"].as_f64().unwrap()));
    }
    let dull = all.iter().filter(|b| b["probability_dull"].as_f64().unwrap() > 0.5).count();
    assert!(dull > 0 && dull < all.len() / 2, "{dull} of {}", all.len());
}

#[test]
fn without_references_blows_are_ranked_and_it_says_so() {
    let (bytes, ..) = walk();
    let reckoned = reckon(bytes, &[]).unwrap();
    assert!(blows(&reckoned).iter().all(|b| b["probability_dull"].is_null() && b["rank_in_session"].is_f64()));
    assert!(reckoned.answer.cautions.iter().any(|c| c.contains("No reference blows")));
}

#[test]
fn what_was_said_tells_the_member() {
    let (bytes, ..) = walk();
    let text = "WEBVTT\n\n00:00.000 --> 02:00.000\nStarboard garboard.\n";
    let reckoned = reckon(bytes, &[("text", text)]).unwrap();
    assert!(blows(&reckoned).iter().all(|b| b["member"] == "garboard"), "{}", blows(&reckoned)[0]);
}

#[test]
fn what_cannot_be_meant_is_refused_in_words() {
    let (bytes, ..) = walk();
    let refused = |bytes: Vec<u8>, pairs: &[(&str, &str)]| reckon(bytes, pairs).unwrap_err().to_string();
    assert!(refused(b"no recording at all, only words".to_vec(), &[]).contains("accepted"));
    assert!(refused(bytes.clone(), &[("reference", "20-10")]).contains("ends before it begins"));
    assert!(refused(bytes, &[("channel", "3")]).contains("no channel 3"));
}
