//! Recordings of many formats, read into the rate and the one channel of the engine `sounding`.
