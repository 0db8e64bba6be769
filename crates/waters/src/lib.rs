//! What the waters and the weather do to a wooden boat: borers by month, what keeps them out, and rot by climate.
//!
//! For: monthly activity of shipworm and gribble from temperature and salinity, protection, fresh-water treatment,
//! a decay index of the climate, sea areas. Not for: moisture in wood or its decay resistance (the room `timber`).
//! A screening built on published limits; it is not calibrated against losses, so it answers in ranges and reasons.
//! No input or output, no clock.
//!
//! Read first: [`areas::find`], [`borers::activity`], [`protection::read`], [`decay_climate::index`].
//!
//! ```
//! let kattegat = waters::areas::find("Kattegat").expect("a sea area");
//! let borers = waters::borers::activity(&kattegat.year());
//! assert_eq!(borers[0].months_most(), 5); // shipworm may settle from June to October
//! ```

pub mod areas;
pub mod borers;
pub mod decay_climate;
mod fault;
pub mod fresh_water;
mod months_csv;
pub mod named;
pub mod protection;
pub mod year;

pub use fault::Fault;
