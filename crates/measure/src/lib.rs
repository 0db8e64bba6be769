//! Reading and writing lengths, masses, angles, temperatures and volumes of timber as people write them.
//!
//! For: the one place where `5/8"`, `3'-4 1/2"`, `3-4-5+`, `1,2 m` or `12 ± 1 mm` become numbers in SI units, and
//! where such numbers become words again in either [`System`]. Not for: remembering how something was first written
//! (keep the text beside the value), money, or sizes by name (a nominal two-by-four is not 2 in by 4 in). Conversion
//! factors are exact and named with their source in [`factor`]. No input or output, no clock; no text makes it panic.
//!
//! Read first: [`Length`], [`System`], [`Fault`], [`Range`].
//!
//! ```
//! use measure::{Length, System};
//! let plank = Length::read("3'-4 1/2\"")?;
//! assert_eq!(plank.mm(), 1028.7);
//! assert_eq!(plank.write(System::Metric), "1.029 m");
//! assert_eq!(Length::read("32 mm")?.write(System::Customary), "1 1/4\"");
//! assert_eq!(Length::read("3-4-9").unwrap_err().to_string(), "at character 5: eighths go from 0 to 7");
//! # Ok::<(), measure::Fault>(())
//! ```

mod angle;
pub mod factor;
mod fault;
mod figures;
mod length;
mod mass;
mod offset;
mod quantity;
mod range;
mod scan;
mod system;
mod temperature;
mod volume;

pub use angle::Angle;
pub use fault::Fault;
pub use length::Length;
pub use mass::Mass;
pub use quantity::Quantity;
pub use range::Range;
pub use system::System;
pub use temperature::Temperature;
pub use volume::{Volume, VolumeUnit};
