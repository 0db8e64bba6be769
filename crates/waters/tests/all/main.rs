//! Tests of the room `waters` through its public face.

mod areas;
mod borers;
mod decay;
mod named;
mod protection;
