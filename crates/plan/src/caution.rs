//! Cautions, each written once; operations name the ones they need.
//!
//! They remind; they do not teach. A machine's manual comes before every one of them.

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
    /// A wall with gaps meets the tool edge by edge.
    Gaps,
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

impl Caution {
    /// Every caution.
    pub const ALL: [Caution; 18] = [
        Caution::FaceShield,
        Caution::Dust,
        Caution::HandsClear,
        Caution::BladeGuard,
        Caution::SmallPieces,
        Caution::RoundWork,
        Caution::Speed,
        Caution::StandClear,
        Caution::LooseThings,
        Caution::Holding,
        Caution::Gaps,
        Caution::GlueSound,
        Caution::Epoxy,
        Caution::OilyRags,
        Caution::Vapour,
        Caution::Noise,
        Caution::StoppedToSet,
        Caution::Estimate,
    ];

    /// Two or three words that call it to mind.
    pub const fn heading(self) -> &'static str {
        match self {
            Caution::FaceShield => "face shield",
            Caution::Dust => "dust",
            Caution::HandsClear => "hands clear",
            Caution::BladeGuard => "blade guard",
            Caution::SmallPieces => "small pieces",
            Caution::RoundWork => "round work",
            Caution::Speed => "speed",
            Caution::StandClear => "stand clear",
            Caution::LooseThings => "nothing loose",
            Caution::Holding => "holding",
            Caution::Gaps => "gaps in the wall",
            Caution::GlueSound => "sound joints",
            Caution::Epoxy => "epoxy",
            Caution::OilyRags => "oily rags",
            Caution::Vapour => "vapour",
            Caution::Noise => "noise",
            Caution::StoppedToSet => "stopped to set",
            Caution::Estimate => "estimate",
        }
    }

    /// The caution as it is printed.
    pub const fn words(self) -> &'static str {
        match self {
            Caution::FaceShield => {
                "Wear a full face shield over safety glasses whenever the work turns."
            }
            Caution::Dust => {
                "Draw the dust off where it is made and wear a respirator that suits fine \
                 dust. Some woods irritate skin and lungs."
            }
            Caution::HandsClear => {
                "Keep both hands out of the blade's line and behind it; push with a stick, \
                 block or sled."
            }
            Caution::BladeGuard => {
                "Lower the guard or guide to just over the work; leave only the cut uncovered. \
                 Use the guards that the machine's manual asks for."
            }
            Caution::SmallPieces => {
                "Hold small pieces with a clamp or hold-down of the jig, never with fingers. \
                 Let the blade stop before you pick up an offcut."
            }
            Caution::RoundWork => {
                "Round work rolls when a blade bites. It stays clamped to the sled, faceplate \
                 and all, until the blade stands still."
            }
            Caution::Speed => {
                "Start slow, at the lowest speed, and stay below the speed given. It is a \
                 ceiling, not a target; the lathe, faceplate and jaws may allow less."
            }
            Caution::StandClear => {
                "Turn the work once by hand, then stand out of its line while the lathe runs up."
            }
            Caution::LooseThings => {
                "No gloves, loose sleeves, rings or cords; tie hair back. Sand with the tool \
                 rest taken away."
            }
            Caution::Holding => {
                "Check that the work is held fast before every start: screws long enough, jaws \
                 seated, tailstock up wherever it can be."
            }
            Caution::Gaps => {
                "Edges strike the tool, and a loose segment flies. Light cuts, low speed, \
                 never a finger in a gap. Sand with the work stopped or with abrasive on a block."
            }
            Caution::GlueSound => {
                "A joint that is open, starved or not cured may fly apart. Let it cure, look \
                 at every joint, and do not turn a doubtful one."
            }
            Caution::Epoxy => {
                "Keep epoxy off the skin, mix as its maker says, and air the room. Do not sand \
                 it before it is fully cured."
            }
            Caution::OilyRags => {
                "Rags with drying oil can catch fire by themselves. Spread them flat outdoors to \
                 dry or keep them under water in a closed metal can."
            }
            Caution::Vapour => {
                "Air the room, keep flames and sparks away, and follow the finish's own label."
            }
            Caution::Noise => "Wear hearing protection.",
            Caution::StoppedToSet => {
                "Set, measure and change blades only with the machine stopped and unplugged."
            }
            Caution::Estimate => {
                "Limits worked out here are estimates. The machine's manual and your own \
                 judgement come first."
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Caution;

    #[test]
    fn each_caution_is_said_in_short_plain_sentences() {
        for caution in Caution::ALL {
            let words = caution.words();
            assert!(words.ends_with('.') && words.len() <= 200, "{caution:?}");
            assert!(!words.contains("  "), "{caution:?}");
            assert!(caution.heading().len() <= 16, "{caution:?}");
        }
    }

    #[test]
    fn no_two_cautions_are_called_the_same() {
        let mut headings: Vec<_> = Caution::ALL.iter().map(|c| c.heading()).collect();
        headings.sort_unstable();
        headings.dedup();
        assert_eq!(headings.len(), Caution::ALL.len());
    }
}
