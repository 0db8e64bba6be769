//! Tests of the measure room through its public interface.

mod faults;
mod outside;
mod reading;
mod round_trip;
