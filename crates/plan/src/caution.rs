//! Cautions, each written once; operations name the ones they need.

use serde::Serialize;

/// A caution. The words stand in [`Caution::words`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Caution {
    /// Face and eyes at the lathe.
    FaceShield,
    /// Wood dust.
    Dust,
    /// Hands and the blade.
    HandsClear,
    /// Guard lowered, blade covered but for the cut.
    BladeGuard,
    /// Small pieces are held by a jig, never by fingers.
    SmallPieces,
    /// Round work can roll into a band saw blade.
    RoundWork,
    /// Speed at the lathe.
    Speed,
    /// Stand out of the line of the work at starting.
    StandClear,
    /// Loose clothing, gloves, hair at turning machines.
    LooseThings,
    /// Checks that the work is held.
    Holding,
    /// Uncured or badly closed glue joints may fly apart.
    GlueSound,
    /// Epoxy on skin and in air.
    Epoxy,
    /// Oily rags.
    OilyRags,
    /// Finish's vapours.
    Vapour,
    /// Noise.
    Noise,
    /// The machine is stopped and unplugged while it is set.
    StoppedToSet,
    /// Computed limits are estimates; the manual and the maker's judgement come first.
    Estimate,
}
