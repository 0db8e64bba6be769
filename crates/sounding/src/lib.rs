//! Samples to blows, blows to features, features to a judgement against sound wood of the same boat.
