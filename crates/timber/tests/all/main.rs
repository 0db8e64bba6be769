//! Tests of the room `timber` through its public face.

mod species;
