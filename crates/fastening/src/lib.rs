//! fastening
