//! Quantities, what work may cost, and what a boat may be worth.
//!
//! For: taking off timber, fastenings and seams; cost lines as low, likely and high, added up with shared causes and lines
//! that may not be needed; an opinion of value from comparables with every adjustment shown. Not for: knowing any price.
//! No rate, yield, waste or discount is built in: all of them are the user's, with who, where and when. No input or
//! output, no clock; a simulation takes its seed, and the same seed gives the same figures everywhere.
//!
//! Read first: [`Line`], [`Estimate`], [`value::Comparable`].
//!
//! ```
//! use estimate::{Estimate, Line};
//! let line = Line::new("refasten the garboards (invented)", 400.0, 650.0, 1500.0)?;
//! let total = Estimate { lines: vec![line], ..Estimate::default() }.total()?;
//! assert!((total.mean - 850.0).abs() < 1e-9);
//! assert!(total.p10 < total.p50 && total.p50 < total.p90);
//! # Ok::<(), estimate::Fault>(())
//! ```

mod causes;
mod fault;
mod line;
pub mod quantities;
pub mod robust;
mod seeded;
mod spread;
pub mod take_off;
mod total;
pub mod value;

pub use fault::Fault;
pub use line::{Line, Rate, read_lines, read_rates};
pub use seeded::Seeded;
pub use spread::{Shape, Spread};
pub use total::{Driver, Estimate, Total};
