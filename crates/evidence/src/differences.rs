//! Why the network's answer differs from the plank's table alone.

use crate::Book;
use crate::strongest::Piece;

/// Largest difference in a state's probability that passes without a word.
const SILENT: f64 = 0.005;

/// Returns in sentences why the two answers differ; empty when they agree.
pub(crate) fn because(book: &Book, pieces: &[Piece], joint: &[f64; 7], plank_only: &[f64; 7]) -> Vec<String> {
    let differ = joint.iter().zip(plank_only).any(|(a, b)| (a - b).abs() > SILENT);
    if !differ {
        return Vec::new();
    }
    let mut reasons = Vec::new();
    let named = |piece: &&Piece| piece.observation.reading.replace('_', " ");
    let frame: Vec<_> = pieces.iter().filter(|p| p.observation.group == "frame").map(|p| named(&p)).collect();
    if !frame.is_empty() {
        reasons.push(format!(
            "The frame behind was read ({}); a bad frame makes a loose or decayed plank likelier, which the plank's table alone cannot know.",
            frame.join(", ")
        ));
    }
    let resting: Vec<_> =
        pieces.iter().filter(|p| book.network.rests_on_fastening[p.reading]).map(|p| named(&p)).collect();
    if resting.len() > 1 {
        reasons.push(format!(
            "{} all come about through the fastening; they are not independent witnesses to the plank, so together they weigh differently than one by one.",
            resting.join(", ")
        ));
    }
    if resting.len() == 1 && !frame.is_empty() {
        reasons.push(format!("{} comes about through the fastening, of which the frame tells too.", resting[0]));
    }
    if reasons.is_empty() {
        // A reading counted at a share is tempered combination by combination, which is not the same as tempering its average.
        reasons
            .push("A reading that counts only in part is weighed in each state of the fastening by itself.".to_owned());
    }
    reasons
}
