//! The checks, each in its own file.

mod blade_exposed;
mod blocks_no_room;
mod breakthrough;
mod cannot_be_made;
mod cut_glancing;
mod end_grain_joint;
mod floor_gap;
mod floor_moves;
mod floor_open;
mod form;
mod glue_cold;
mod glue_open_time;
mod heavy_in_hand;
mod holding_weak;
mod hollow_deep;
mod joints_line_up;
mod lathe_length;
mod lathe_swing;
mod layer_board_wide;
mod layer_made_solid;
mod layer_moves;
mod loop_breaks_up;
mod loop_interrupted;
mod loop_leaves_blank;
mod loop_meets_floor;
mod loops_merge;
mod loops_uneven;
mod movement_unknown;
mod off_balance;
mod open_ring_unsupported;
mod panel_off_floor;
mod rim_thin;
mod ring_above_form;
mod ring_barely_covers;
mod ring_narrow_inside;
mod ring_narrow_outside;
mod ring_opens;
mod ring_to_a_point;
mod ring_wedge;
mod saw_height;
mod saw_room;
mod saw_table;
mod screw_tips;
mod segments_tiny;
mod sled_overhang;
mod sled_tilt;
mod slice_fragile;
mod split_in_loops;
mod split_in_ring;
mod stack_short;
mod steady_due;
mod stock_thin;
mod symmetry_lost;
mod tips_over;
mod too_many_cuts;
mod wall_sings;
mod wall_thin;
mod windows_closed;
mod wood_figures;
mod wood_missing;

use super::Check;

/// Causes before effects; wood that is missing for no reason found yet comes last.
pub(super) const REGISTRY: &[&dyn Check] = &[
    &form::FormWrong,
    &cannot_be_made::CannotBeMade,
    &too_many_cuts::TooManyCuts,
    &stack_short::StackShort,
    &ring_above_form::RingAboveForm,
    &ring_narrow_outside::RingNarrowOutside,
    &ring_narrow_inside::RingNarrowInside,
    &ring_barely_covers::RingBarelyCovers,
    &floor_open::FloorOpen,
    &panel_off_floor::PanelOffFloor,
    &ring_to_a_point::RingToAPoint,
    &stock_thin::StockThin,
    &joints_line_up::JointsLineUp,
    &lathe_swing::LatheSwing,
    &lathe_length::LatheLength,
    &loop_interrupted::LoopInterrupted,
    &loop_leaves_blank::LoopLeavesBlank,
    &loop_breaks_up::LoopBreaksUp,
    &loop_meets_floor::LoopMeetsFloor,
    &loops_merge::LoopsMerge,
    &windows_closed::WindowsClosed,
    &loops_uneven::LoopsUneven,
    &symmetry_lost::SymmetryLost,
    &slice_fragile::SliceFragile,
    &layer_board_wide::LayerBoardWide,
    &layer_made_solid::LayerMadeSolid,
    &blocks_no_room::BlocksNoRoom,
    &sled_tilt::SledTilt,
    &saw_height::SawHeight,
    &saw_room::SawRoom,
    &saw_table::SawTable,
    &split_in_loops::SplitInLoops,
    &split_in_ring::SplitInRing,
    &holding_weak::HoldingWeak,
    &steady_due::SteadyDue,
    &screw_tips::ScrewTips,
    &hollow_deep::HollowDeep,
    &wall_sings::WallSings,
    &off_balance::OffBalance,
    &floor_moves::FloorMoves,
    &floor_gap::FloorGap,
    &ring_opens::RingOpens,
    &open_ring_unsupported::OpenRingUnsupported,
    &layer_moves::LayerMoves,
    &movement_unknown::MovementUnknown,
    &ring_wedge::RingWedge,
    &glue_open_time::GlueOpenTime,
    &glue_cold::GlueCold,
    &wall_thin::WallThin,
    &breakthrough::Breakthrough,
    &rim_thin::RimThin,
    &segments_tiny::SegmentsTiny,
    &end_grain_joint::EndGrainJoint,
    &cut_glancing::CutGlancing,
    &blade_exposed::BladeExposed,
    &sled_overhang::SledOverhang,
    &tips_over::TipsOver,
    &heavy_in_hand::HeavyInHand,
    &wood_figures::WoodFigures,
    &wood_missing::WoodMissing,
];
