//! The states of a place's three parts.

use std::fmt;

macro_rules! states {
    ($(#[$about:meta])* $name:ident, $all:ident, $count:literal: $($(#[$doc:meta])* $variant:ident = $word:literal, $plain:literal;)+) => {
        $(#[$about])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum $name {
            $($(#[$doc])* $variant,)+
        }

        /// All states, in the order of the data files.
        pub const $all: [$name; $count] = [$($name::$variant,)+];

        impl $name {
            /// Returns the name used in data files and JSON.
            pub const fn name(self) -> &'static str {
                match self { $($name::$variant => $word,)+ }
            }

            /// Returns the state in plain words.
            pub const fn words(self) -> &'static str {
                match self { $($name::$variant => $plain,)+ }
            }

            /// Returns the state of that name in data files and JSON.
            pub fn named(name: &str) -> Option<Self> {
                $all.into_iter().find(|state| state.name() == name)
            }

            pub(crate) const fn index(self) -> usize {
                self as usize
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(self.words())
            }
        }
    };
}

states! {
    /// What mainly ails a plank or timber: seven states that exclude one another.
    PlankState, PLANK_STATES, 7:
    /// Nothing ails it.
    Sound = "sound", "sound";
    /// Checks in the surface and nothing else.
    SurfaceChecks = "surface_checks", "surface checks only";
    /// The fastening has failed or the plank is off its frame.
    Loose = "loose", "loose";
    /// Decayed.
    Decayed = "decayed", "decayed";
    /// Degraded by corroding iron.
    IronSick = "iron_sick", "iron-sick";
    /// Attacked by borers.
    Borer = "borer", "bored by worm";
    /// Repaired before.
    Repaired = "repaired", "repaired before";
}

states! {
    /// How the fastening serves.
    FasteningState, FASTENING_STATES, 3:
    /// Metal and wood both serve.
    Holding = "holding", "holding";
    /// The metal has gone.
    Wasted = "wasted", "wasted";
    /// The metal is there, the wood or frame no longer holds it.
    Slack = "slack", "slack in its hole";
}

states! {
    /// How the frame behind is.
    FrameState, FRAME_STATES, 4:
    /// Nothing ails it.
    Sound = "sound", "sound";
    /// Decayed.
    Decayed = "decayed", "decayed";
    /// Degraded by corroding iron.
    IronSick = "iron_sick", "iron-sick";
    /// Cracked or broken.
    Cracked = "cracked", "cracked";
}
