//! Tests of the store through its public interface. All boats, people and devices are invented.

#![allow(clippy::unwrap_used, reason = "a test stops at what it does not expect")]

mod boat;
mod conformance;
mod crash;
mod damage;
mod disk;
mod folder;
mod package;
mod package_attacks;
mod two_programs;
