// Generated from crates/editor/src/wire by its test; not written by hand.

/**
 * A loop band.
 */
export type Band = { 
/**
 * `section[1].band[0]`.
 */
path: string, 
/**
 * Its section, from 0.
 */
section: number, 
/**
 * Its number in the section, from 0.
 */
number: number, 
/**
 * Height of the loops' middle.
 */
centre: number, 
/**
 * Tilt, degrees.
 */
tilt: number, 
/**
 * Highest visible edge outside; null off the wall.
 */
top: number | null, 
/**
 * Lowest visible edge outside.
 */
bottom: number | null, 
/**
 * The section's underside.
 */
z0: number, 
/**
 * The section's top.
 */
z1: number, 
/**
 * Loops, in the order of their numbers.
 */
loops: Array<Loop>, 
/**
 * Crossings on both walls.
 */
crossings: Array<Crossing>, 
/**
 * Heights of the rows of crossings.
 */
rows: Array<Row>, 
/**
 * How far its handles go.
 */
limits: Limits, 
/**
 * How often the finished pattern repeats, in words.
 */
symmetry: string, 
/**
 * Its figures.
 */
figures: Array<Figure>, };

/**
 * A deleted project.
 */
export type Binned = { 
/**
 * Its number in the bin.
 */
id: string, 
/**
 * The name it had.
 */
name: string, 
/**
 * When it was deleted, milliseconds since 1970 UTC.
 */
deleted: number, };

/**
 * A setting that the maker can change where it stands.
 */
export type Blank = { 
/**
 * Its value as it stands in the blank, without the unit.
 */
shown: string, 
/**
 * `mm`, `in`, `°` or nothing.
 */
unit: string, 
/**
 * mm, degrees or a count.
 */
raw: number | null, 
/**
 * What it is, for those who do not see where it stands.
 */
label: string, 
/**
 * Who chose it.
 */
origin: Origin, 
/**
 * What it takes.
 */
kind: BlankKind, 
/**
 * Least that the file takes; mm, degrees or a count.
 */
least: number | null, 
/**
 * Most that the file takes.
 */
most: number | null, 
/**
 * What an arrow key changes it by; mm, degrees or a count.
 */
step: number, 
/**
 * What there is to choose from.
 */
choices: Array<Choice>, };

/**
 * What a blank takes.
 */
export type BlankKind = "length" | "angle" | "whole" | "number" | "text" | "choice" | "wood" | "woods" | "flag" | "list";

/**
 * One of a blank's choices.
 */
export type Choice = { 
/**
 * What to set.
 */
value: string, 
/**
 * What to show.
 */
label: string, };

/**
 * Two sides changed one piece. Both are kept; one is to be taken.
 */
export type Conflict = { 
/**
 * What happened, in a sentence.
 */
what: string, 
/**
 * The version that stands now.
 */
theirs: string, 
/**
 * The version that the edit would have given; it is kept and can be taken. Null
 * where the edit cannot be made or read.
 */
mine: string | null, };

/**
 * Findings counted.
 */
export type Counts = { 
/**
 * That stop the work.
 */
stops: number, 
/**
 * That are risky.
 */
risky: number, 
/**
 * That are worth knowing.
 */
knowing: number, };

/**
 * A crossing.
 */
export type Crossing = { 
/**
 * On which wall.
 */
wall: WallSide, 
/**
 * Azimuth in the piece, degrees.
 */
azimuth: number, 
/**
 * Height.
 */
z: number, 
/**
 * The loop that runs through, from 1.
 */
over: number, 
/**
 * The loop that is interrupted, from 1.
 */
under: number, };

/**
 * A loop's two edges on a wall as (azimuth, height), azimuth rising from 0 to 360;
 * where the loop runs off the wall the line has a gap, a new list.
 */
export type Edges = { 
/**
 * The upper edge.
 */
upper: Array<Array<[number, number]>>, 
/**
 * The lower edge.
 */
lower: Array<Array<[number, number]>>, };

/**
 * One change to a file's text, by key path.
 *
 * A path counts from 0, as in `section[1].band[0].reach`; a ring is `section[1].ring#2`,
 * the third real ring whatever way the file counts them.
 */
export type Edit = { "op": "set", 
/**
 * The key.
 */
path: string, 
/**
 * Text is the maker's words, a bare number being in the page's unit; a number is
 * mm or degrees, as a drag gives it, and is rounded to what the unit shows.
 */
value: Words, } | { "op": "add", 
/**
 * The list: `form.outer`, `section`, `section[0].ring`, `section[1].band`.
 */
path: string, 
/**
 * Where the new entry will stand.
 */
at: number, 
/**
 * What it is; left out, it is like its neighbour.
 */
value?: Words, } | { "op": "remove", 
/**
 * The entry.
 */
path: string, } | { "op": "move", 
/**
 * The entry.
 */
path: string, 
/**
 * Where it will stand.
 */
to: number, };

/**
 * Changes to a project.
 */
export type EditRequest = { 
/**
 * Changes, made in order, all or none.
 */
edits: Array<Edit>, 
/**
 * The version that the page shows.
 */
base: string, 
/**
 * Only look: nothing is saved and nothing can be undone.
 */
preview?: boolean, 
/**
 * Which page asks, so that its old questions can be dropped.
 */
client?: string, 
/**
 * The number of this question; it comes back with the answer.
 */
seq?: number, };

/**
 * The answer to an edit, an undo or a choice.
 */
export type Edited = { 
/**
 * The piece as it now is; null where nothing changed.
 */
view: View | null, 
/**
 * Why nothing changed.
 */
problems: Array<Problem>, 
/**
 * Someone else has changed the same piece.
 */
conflict: Conflict | null, 
/**
 * A newer question has come from the same page; this one was not worked out.
 */
superseded: boolean, 
/**
 * The question's number.
 */
seq: number | null, };

/**
 * What the stream of events tells.
 */
export type Event = { "event": "changed", 
/**
 * The version that stands now.
 */
version: string, 
/**
 * It was changed on the disk by another program.
 */
on_disk: boolean, 
/**
 * The file on the disk cannot be used; the last good piece stays.
 */
broken: boolean, 
/**
 * The page whose edit it was.
 */
client: string | null, } | { "event": "gone", } | { "event": "behind", };

/**
 * A figure.
 */
export type Figure = { 
/**
 * A name for machines.
 */
key: string, 
/**
 * What it is.
 */
label: string, 
/**
 * Its value, without the unit.
 */
value: string, 
/**
 * Its unit; empty for counts and words.
 */
unit: string, 
/**
 * A machine, stop or rule is set to it.
 */
cut_to: boolean, 
/**
 * How it was worked out.
 */
working: Working | null, };

/**
 * What may go wrong.
 */
export type Finding = { 
/**
 * A name for machines.
 */
key: string, 
/**
 * How bad it is.
 */
severity: Severity, 
/**
 * What is found.
 */
what: string, 
/**
 * What would do.
 */
remedy: string, 
/**
 * The blank to change.
 */
path: string, 
/**
 * Changes that do it, each tried.
 */
ways: Array<Way>, 
/**
 * What was found one by one, where one cause was found in many places.
 */
cases: Array<string>, 
/**
 * The figure found and its limit.
 */
figures: Array<Figure>, 
/**
 * Section, from the bottom.
 */
section: number | null, 
/**
 * Ring in its section.
 */
ring: number | null, 
/**
 * Loop band in its section.
 */
band: number | null, 
/**
 * Loop in its band.
 */
loop: number | null, };

/**
 * A point of a curve.
 */
export type FormPoint = { 
/**
 * `form.outer[2]`; its height is `[0]` of that, its radius `[1]`, its corner `[2]`.
 */
path: string, 
/**
 * Height.
 */
height: number, 
/**
 * Radius.
 */
radius: number, 
/**
 * The curve turns sharply here.
 */
corner: boolean, };

/**
 * The finished form.
 */
export type FormView = { 
/**
 * Height.
 */
height: number, 
/**
 * Largest radius.
 */
radius: number, 
/**
 * The outer side, from the bottom up.
 */
outer: Array<[number, number]>, 
/**
 * The inner side, from the bottom up.
 */
inner: Array<[number, number]>, 
/**
 * The half-section of the wood, closed.
 */
outline: Array<[number, number]>, 
/**
 * Points of the outer curve.
 */
points: Array<FormPoint>, 
/**
 * Points of the inner curve, where it has its own.
 */
inner_points: Array<FormPoint>, 
/**
 * Wall thicknesses by height.
 */
walls: Array<Wall>, 
/**
 * Where the wall is thin.
 */
thin: Array<Thin>, 
/**
 * What it holds, weighs and so on.
 */
figures: Array<Figure>, 
/**
 * The surface in parts, for the picture in three dimensions.
 */
parts: Array<SurfacePart>, };

/**
 * Settings that belong together.
 */
export type Group = { 
/**
 * What they are about.
 */
title: string, 
/**
 * Their keys.
 */
paths: Array<string>, };

/**
 * A file from elsewhere.
 */
export type ImportRequest = { 
/**
 * The name it should have; another is found if it is taken.
 */
name: string, 
/**
 * Its text.
 */
text: string, };

/**
 * What was put into a formula.
 */
export type Input = { 
/**
 * Its name in the formula.
 */
name: string, 
/**
 * Its value with the unit.
 */
shown: string, };

/**
 * A version that is kept.
 */
export type Kept = { 
/**
 * The version.
 */
version: string, 
/**
 * When it was saved, milliseconds since 1970 UTC.
 */
saved: number, };

/**
 * How far one handle goes, mm of the blank's own value.
 */
export type Limit = { 
/**
 * Least.
 */
least: number, 
/**
 * Most.
 */
most: number, 
/**
 * What stops it at the least, with its figure.
 */
why_least: string, 
/**
 * What stops it at the most, with its figure.
 */
why_most: string, };

/**
 * How far a band's handles go.
 */
export type Limits = { 
/**
 * Of the reach.
 */
reach: Limit, 
/**
 * Of the height of the loops' middle above the section's underside.
 */
height: Limit, 
/**
 * Of the layer.
 */
layer: Limit, };

/**
 * A loop.
 */
export type Loop = { 
/**
 * Its number, from 1.
 */
number: number, 
/**
 * Wood of its layer.
 */
wood: string, 
/**
 * Azimuth of its climb in the piece, degrees.
 */
azimuth: number, 
/**
 * Its place in the cutting order, from 1.
 */
cut: number, 
/**
 * Edges outside.
 */
outside: Edges, 
/**
 * Edges inside.
 */
inside: Edges, };

/**
 * The project that a call made or moved.
 */
export type Named = { 
/**
 * Its name; null where the call could not be done.
 */
name: string | null, 
/**
 * Why not.
 */
problems: Array<Problem>, };

/**
 * What a new project starts from.
 */
export type NewRequest = { 
/**
 * Kind of piece: bowl, vase, platter, box.
 */
kind: string, 
/**
 * Overall height in the maker's words; usual where it is left out.
 */
height?: string, 
/**
 * Largest diameter in the maker's words.
 */
diameter?: string, 
/**
 * Loops, 2 to 16, or 0 for none.
 */
loops?: number, 
/**
 * Segments in a ring, 3 to 144.
 */
segments?: number, 
/**
 * Unit of the file.
 */
unit?: PageUnit, 
/**
 * What the maker calls it.
 */
title?: string, };

/**
 * One operation of the route.
 */
export type Operation = { 
/**
 * Its number in the route, from 1.
 */
number: number, 
/**
 * Which operation it is, for machines.
 */
kind: string, 
/**
 * What is done, to what.
 */
title: string, 
/**
 * Its figures, those to set first.
 */
figures: Array<Figure>, 
/**
 * What is done, in order.
 */
doing: Array<string>, 
/**
 * What to measure before going on.
 */
measure: Array<string>, 
/**
 * Cautions in words.
 */
cautions: Array<string>, 
/**
 * Address of the drawing that shows it; add `&unit=`. Null where there is none.
 */
drawing: string | null, 
/**
 * Time of work, `25 min`.
 */
time: string, 
/**
 * Waiting after it, `12 h`; empty for none.
 */
wait: string, 
/**
 * Section, from the bottom.
 */
section: number | null, 
/**
 * Ring in its section.
 */
ring: number | null, 
/**
 * Loop band in its section.
 */
band: number | null, 
/**
 * Loop in its band.
 */
loop: number | null, };

/**
 * Who chose a setting.
 */
export type Origin = "maker" | "workshop" | "default" | "form";

/**
 * How the page's words are spelled.
 */
export type PageSpelling = "british" | "american";

/**
 * The unit of the page.
 */
export type PageUnit = "mm" | "inch";

/**
 * How a picture lies on a part.
 */
export type PartMap = "skin" | "disc";

/**
 * Parts of the surface.
 */
export type PartName = "outside" | "rim" | "inside" | "floor" | "foot";

/**
 * Addresses of pictures; add `&w=` for the width.
 */
export type Pictures = { 
/**
 * Outer wall unrolled: azimuth to the right, height up, top row the rim.
 */
outside: string, 
/**
 * Inner wall, the same way.
 */
inside: string, 
/**
 * The half-section's face from the axis to the right; add `&az=`.
 */
section: string, 
/**
 * A level cut seen from above; add `&z=`.
 */
level: string, 
/**
 * The whole piece seen from the side.
 */
portrait: string, };

/**
 * Something that must be changed before a text can be used.
 */
export type Problem = { 
/**
 * The key it is about, as the blanks name it; null where it is about none.
 */
path: string | null, 
/**
 * Line of the file, from 1.
 */
line: number | null, 
/**
 * Column, from 1.
 */
column: number | null, 
/**
 * What is wrong.
 */
what: string, 
/**
 * What to do about it.
 */
remedy: string, };

/**
 * A project of the folder.
 */
export type Project = { 
/**
 * The file's name without `.toml`.
 */
name: string, 
/**
 * What the maker calls it.
 */
title: string, 
/**
 * Its unit.
 */
unit: PageUnit, 
/**
 * When it was saved, milliseconds since 1970 UTC.
 */
saved: number, 
/**
 * Findings counted.
 */
findings: Counts, 
/**
 * The file cannot be used as it is.
 */
broken: boolean, 
/**
 * Its picture's address; null where there is none.
 */
picture: string | null, };

/**
 * A call that could not be answered, with the reasons.
 */
export type Refusal = { 
/**
 * The reasons.
 */
problems: Array<Problem>, };

/**
 * A new name.
 */
export type RenameRequest = { 
/**
 * The new name; the title stays.
 */
to: string, };

/**
 * A ring.
 */
export type Ring = { 
/**
 * `section[1].ring#2`.
 */
path: string, 
/**
 * Its number in the piece, from 1.
 */
number: number, 
/**
 * Its underside.
 */
z0: number, 
/**
 * Its top.
 */
z1: number, 
/**
 * One disc.
 */
solid: boolean, 
/**
 * A floor panel is let into it.
 */
panel: boolean, 
/**
 * Segments.
 */
segments: number, 
/**
 * Azimuth in the piece where segment 0 begins, degrees.
 */
start: number, 
/**
 * Wood of each segment, as the file calls it.
 */
woods: Array<string>, 
/**
 * Axis to an inner corner; 0 for a disc.
 */
inside: number, 
/**
 * Axis to an outer flat.
 */
outside: number, 
/**
 * The form wants more of it than it has: where and how much.
 */
narrow: string | null, 
/**
 * Its sizes.
 */
figures: Array<Figure>, };

/**
 * The route.
 */
export type Route = { 
/**
 * Operations in order.
 */
operations: Array<Operation>, 
/**
 * Stages of the making.
 */
steps: Array<Step>, 
/**
 * Time of work.
 */
work: string, 
/**
 * Time of waiting.
 */
waiting: string, 
/**
 * Holding, glue and days, movement, use.
 */
studies: Array<Study>, };

/**
 * A row of crossings.
 */
export type Row = { 
/**
 * On which wall.
 */
wall: WallSide, 
/**
 * Height.
 */
z: number, 
/**
 * The height in words.
 */
shown: string, };

/**
 * A section.
 */
export type Section = { 
/**
 * `section[1]`.
 */
path: string, 
/**
 * The maker's name for it.
 */
name: string, 
/**
 * Its underside.
 */
z0: number, 
/**
 * Its top.
 */
z1: number, 
/**
 * Rings, from the bottom up.
 */
rings: Array<Ring>, 
/**
 * Loop bands.
 */
bands: Array<Band>, 
/**
 * Splits.
 */
splits: Array<Split>, };

/**
 * How bad a finding is.
 */
export type Severity = "stops" | "risky" | "knowing";

/**
 * The folder.
 */
export type Shelf = { 
/**
 * The folder's own name.
 */
folder: string, 
/**
 * Its projects, by name.
 */
projects: Array<Project>, 
/**
 * What has been deleted, newest first.
 */
bin: Array<Binned>, 
/**
 * What a new project can start from.
 */
starters: Array<Starter>, };

/**
 * A split.
 */
export type Split = { 
/**
 * `section[2].split[0]`.
 */
path: string, 
/**
 * Height in the piece.
 */
z: number, 
/**
 * How far the upper part is turned, degrees.
 */
turn: number, };

/**
 * What is at a point.
 */
export type Spot = { 
/**
 * `Loop 3 of 4 · padauk`.
 */
title: string, 
/**
 * Its history in a few short lines.
 */
lines: Array<string>, 
/**
 * Its wood, as the file names it.
 */
wood: string, 
/**
 * Section, from 0.
 */
section: number, 
/**
 * Ring in the section, from 0.
 */
ring: number | null, 
/**
 * Segment in the ring, from 0.
 */
segment: number | null, 
/**
 * Band in the section, from 0.
 */
band: number | null, 
/**
 * Loop in the band, from 0.
 */
loop: number | null, 
/**
 * The operation that put it there.
 */
operation: number | null, 
/**
 * Its blank or entry.
 */
path: string | null, };

/**
 * A kind of piece to start from, with usual figures in the unit asked for.
 */
export type Starter = { 
/**
 * What to ask for.
 */
kind: string, 
/**
 * What to show.
 */
label: string, 
/**
 * Overall height, with its unit.
 */
height: string, 
/**
 * Largest diameter, with its unit.
 */
diameter: string, 
/**
 * Loops.
 */
loops: number, 
/**
 * Segments in a ring.
 */
segments: number, 
/**
 * Unit of the file.
 */
unit: PageUnit, };

/**
 * A stage of the making, for the ruled line under the piece.
 */
export type Step = { 
/**
 * One or two words.
 */
label: string, 
/**
 * The last operation of the stage.
 */
operation: number, 
/**
 * What sort of stage it is.
 */
kind: StepKind, 
/**
 * Section.
 */
section: number | null, 
/**
 * Band.
 */
band: number | null, 
/**
 * Loop.
 */
loop: number | null, };

/**
 * Sorts of stage.
 */
export type StepKind = "rings" | "stack" | "loop" | "split" | "join" | "turn" | "finish";

/**
 * What is worked out about the whole of the work: holding, glue, movement, use.
 */
export type Study = { 
/**
 * A name for machines: `holding`.
 */
key: string, 
/**
 * Its heading.
 */
title: string, 
/**
 * Its figures.
 */
figures: Array<Figure>, 
/**
 * What is said beside them.
 */
text: Array<string>, };

/**
 * A part of the surface: a line turned round the axis, and the picture on it.
 */
export type SurfacePart = { 
/**
 * Which part.
 */
name: PartName, 
/**
 * How the picture lies on it.
 */
map: PartMap, 
/**
 * Its line, as (radius, height), going so that the wood is on its left.
 */
line: Array<[number, number]>, 
/**
 * Address of its picture; add `&w=`.
 */
picture: string, };

/**
 * Takes a version that is kept: the other side of a conflict, or an earlier one.
 */
export type TakeRequest = { 
/**
 * The version.
 */
version: string, };

/**
 * A project's text.
 */
export type TextAnswer = { 
/**
 * The text on disk.
 */
text: string, 
/**
 * Its version.
 */
version: string, 
/**
 * What is wrong with it.
 */
problems: Array<Problem>, };

/**
 * A whole new text, as when a broken file is repaired by hand.
 */
export type TextRequest = { 
/**
 * The text.
 */
text: string, 
/**
 * The version that the page shows.
 */
base: string, };

/**
 * A place where the wall is thin.
 */
export type Thin = { 
/**
 * From this height.
 */
z0: number, 
/**
 * To this height.
 */
z1: number, 
/**
 * What is so.
 */
what: string, };

/**
 * One piece.
 */
export type View = { 
/**
 * The project's name.
 */
name: string, 
/**
 * What the maker calls it.
 */
title: string, 
/**
 * The maker's notes.
 */
notes: string, 
/**
 * The unit asked for.
 */
unit: PageUnit, 
/**
 * The file's own unit.
 */
file_unit: PageUnit, 
/**
 * How its words are spelled.
 */
spelling: PageSpelling, 
/**
 * Version of text and workshop.
 */
version: string, 
/**
 * When it was saved, milliseconds since 1970 UTC; null for a preview.
 */
saved: number | null, 
/**
 * How many steps can be undone.
 */
undo: number, 
/**
 * How many steps can be redone.
 */
redo: number, 
/**
 * Not empty when the file on disk is broken: the rest is the last good piece, or
 * empty where there never was one.
 */
problems: Array<Problem>, 
/**
 * Every setting.
 */
blanks: { [key in string]: Blank }, 
/**
 * The form; null where there is no piece.
 */
form: FormView | null, 
/**
 * Sections from the bottom up.
 */
sections: Array<Section>, 
/**
 * Woods that can be chosen.
 */
woods: Array<Wood>, 
/**
 * What may go wrong, worst first.
 */
findings: Array<Finding>, 
/**
 * Findings counted.
 */
counts: Counts, 
/**
 * The route; null in a preview.
 */
route: Route | null, 
/**
 * Pictures; null where there is no piece.
 */
pictures: Pictures | null, };

/**
 * A wall thickness.
 */
export type Wall = { 
/**
 * `form.wall`, or `form.wall[1]` with height `[0]` and thickness `[1]` of that.
 */
path: string, 
/**
 * Height.
 */
height: number, 
/**
 * Thickness.
 */
thickness: number, };

/**
 * One of the two walls.
 */
export type WallSide = "outside" | "inside";

/**
 * A change of the file that makes a finding go away; it has been tried.
 */
export type Way = { 
/**
 * What it does: `make the section 203.3 mm high`.
 */
what: string, 
/**
 * It as edits.
 */
edits: Array<Edit>, };

/**
 * A wood that can be chosen.
 */
export type Wood = { 
/**
 * As the file names it.
 */
name: string, 
/**
 * As people name it.
 */
label: string, 
/**
 * `#rrggbb`, for looks only.
 */
colour: string, 
/**
 * A letter, each used wood another; empty for unused ones.
 */
letter: string, 
/**
 * Pattern without colour: 0 blank, 1 dots, 2 lines, 3 crossed, 4 filled.
 */
hatch: number, 
/**
 * It is in the piece.
 */
used: boolean, };

/**
 * A value as the page gives it.
 */
export type Words = null | boolean | number | string | Array<Words>;

/**
 * How a figure was worked out.
 */
export type Working = { 
/**
 * The formula in words.
 */
formula: string, 
/**
 * What was put in.
 */
inputs: Array<Input>, 
/**
 * Where the formula comes from.
 */
source: string, };

/**
 * The answer to a change to the workshop.
 */
export type WorkshopEdited = { 
/**
 * The workshop as it now is; null where nothing changed.
 */
workshop: WorkshopView | null, 
/**
 * Why nothing changed.
 */
problems: Array<Problem>, 
/**
 * The file was changed elsewhere; look at it again.
 */
conflict: boolean, };

/**
 * Changes to the workshop.
 */
export type WorkshopRequest = { 
/**
 * Changes, made in order, all or none.
 */
edits: Array<Edit>, 
/**
 * The version that the page shows.
 */
base: string, };

/**
 * The workshop's settings.
 */
export type WorkshopView = { 
/**
 * Version of its file.
 */
version: string, 
/**
 * The unit asked for.
 */
unit: PageUnit, 
/**
 * Every setting.
 */
blanks: { [key in string]: Blank }, 
/**
 * Settings that belong together, in order.
 */
groups: Array<Group>, 
/**
 * The file on disk cannot be used; these are the usual settings.
 */
problems: Array<Problem>, };
