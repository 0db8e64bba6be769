//! How great a package may be.

/// Bounds on a package that comes from elsewhere, so that a small file cannot fill the disk or the memory.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Limits {
    /// Most members.
    pub members: usize,
    /// Most entries.
    pub entries: u64,
    /// Most bytes when unpacked.
    pub bytes: u64,
    /// Most times that the package may grow when unpacked, beyond its first megabyte. Text of entries grows ten- to
    /// twentyfold; deflate cannot do more than about a thousand.
    pub growth: u64,
}

impl Default for Limits {
    /// Two hundred thousand members, a million entries, 64 GiB, growth of a hundred.
    fn default() -> Self {
        Self { members: 200_000, entries: 1_000_000, bytes: 64 << 30, growth: 100 }
    }
}
