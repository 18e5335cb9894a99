//! The page's types, written from these.

use ts_rs::{Config, TS};

use super::*;

fn path() -> std::path::PathBuf {
    std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../web/src/api/types.ts")
}

macro_rules! declare {
    ($($name:ident),* $(,)?) => {{
        // Counts and sizes are all far below 2^53.
        let config = Config::new().with_large_int("number");
        let mut out = String::from(
            "// Generated from crates/app/src/serve/wire by its test; not written by hand.\n",
        );
        $(
            out += "\n";
            if let Some(docs) = <$name as TS>::docs() {
                out += docs.trim();
                out += "\n";
            }
            out += "export ";
            out += &<$name as TS>::decl(&config);
            out += "\n";
        )*
        out
    }};
}

fn types() -> String {
    let mut out = declare!(
        PageUnit,
        PageSpelling,
        Shelf,
        Starter,
        Project,
        Binned,
        NewRequest,
        RenameRequest,
        ImportRequest,
        Named,
        WorkshopView,
        Group,
        WorkshopRequest,
        WorkshopEdited,
        Edit,
        Words,
        EditRequest,
        Edited,
        Conflict,
        TakeRequest,
        TextRequest,
        TextAnswer,
        Kept,
        Problem,
        Refusal,
        Event,
        View,
        Route,
        Blank,
        Origin,
        BlankKind,
        Choice,
        FormView,
        FormPoint,
        Wall,
        Thin,
        SurfacePart,
        PartName,
        PartMap,
        Section,
        Ring,
        Split,
        Band,
        Loop,
        Edges,
        WallSide,
        Crossing,
        Row,
        Limits,
        Limit,
        Wood,
        Pictures,
        Spot,
        Figure,
        Working,
        Input,
        About,
        Operation,
        Study,
        Severity,
        Finding,
        Way,
        Counts,
        Step,
        StepKind,
    );
    out.retain(|c| c != '\r');
    out
}

/// `RINGWRIGHT_WRITE_TYPES=1 cargo test -p app types` writes the file.
#[test]
fn the_pages_types_are_those_of_the_server() {
    let fresh = types();
    if std::env::var_os("RINGWRIGHT_WRITE_TYPES").is_some() {
        std::fs::create_dir_all(path().parent().unwrap()).unwrap();
        std::fs::write(path(), &fresh).unwrap();
        let index = path().with_file_name("index.ts");
        if !index.exists() {
            std::fs::write(index, "export type * from \"./types\";\n").unwrap();
        }
    }
    let kept = std::fs::read_to_string(path()).unwrap_or_default();
    assert!(
        kept == fresh,
        "web/src/api/types.ts is stale: RINGWRIGHT_WRITE_TYPES=1 cargo test -p app types"
    );
}
