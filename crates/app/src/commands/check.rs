//! Every problem of a project file, and what will go wrong in the shop.

use std::path::Path;

use files::message::Said;
use files::report::{Places, on_one_line, said};
use files::units::Unit;
use plan::finding::{Finding, Severity};
use serde_json::{Value, json};

use crate::load::{FileProblems, ProjectArgs, job};
use crate::output::{print, print_json, shown};
use crate::{CommandError, Outcome};

/// A way of so many settings is not written out: the page makes it.
const LONG: usize = 7;

/// Arguments of `check`.
#[derive(clap::Args)]
pub struct Args {
    #[command(flatten)]
    project: ProjectArgs,
    /// For machines.
    #[arg(long)]
    json: bool,
}

/// Runs the command.
pub fn run(args: &Args) -> Outcome {
    match job(&args.project)? {
        Err(troubles) => {
            if args.json {
                print_json(&problems_json(&troubles))?;
            } else {
                for trouble in &troubles {
                    print(&trouble.render())?;
                }
            }
            Err(CommandError::Said)
        }
        Ok(job) => {
            let language = job.language();
            let findings = plan::findings::find(&job.settled);
            let findings: Vec<_> = findings.iter().map(|f| f.said(language)).collect();
            let stops = findings.iter().any(|f| f.severity == Severity::Stops);
            if args.json {
                print_json(&json!({
                    "problems": [],
                    "findings": findings.iter()
                        .map(|f| finding_json(f, &job.places)).collect::<Vec<_>>(),
                }))?;
            } else {
                print(&text(
                    &args.project.file,
                    &findings,
                    &job.places,
                    job.design.unit,
                ))?;
            }
            Ok(!stops)
        }
    }
}

fn problems_json(troubles: &[FileProblems]) -> Value {
    let problems: Vec<Value> = troubles
        .iter()
        .flat_map(|t| {
            t.problems.iter().map(|p| {
                json!({
                    "file": t.file,
                    "line": p.place.map(|at| at.line),
                    "column": p.place.map(|at| at.column),
                    "key": p.key_path,
                    "what": p.what,
                    "remedy": p.remedy,
                })
            })
        })
        .collect();
    json!({ "problems": problems, "findings": [] })
}

fn finding_json(finding: &Finding<Said>, places: &Places) -> Value {
    let mut value = json!(finding);
    if let Some(at) = places.at(&finding.path) {
        value["line"] = json!(at.line);
        value["column"] = json!(at.column);
    }
    value
}

fn text(file: &Path, findings: &[Finding<Said>], places: &Places, unit: Unit) -> String {
    let name = shown(file);
    if findings.is_empty() {
        return format!("{name}: no problems, nothing to watch\n");
    }
    let mut out = String::new();
    for f in findings {
        let at = places
            .at(&f.path)
            .map_or(name.clone(), |p| format!("{name}:{}:{}", p.line, p.column));
        let how = match f.severity {
            Severity::Stops => "stops the work",
            Severity::Risky => "risky",
            Severity::WorthKnowing => "worth knowing",
        };
        out += &format!("{at}: {how}: {}\n", on_one_line(&f.what));
        if let Some(against) = &f.against {
            out += &format!(
                "  figure: {}, limit: {}\n",
                against.figure.show(unit),
                against.limit.show(unit)
            );
        }
        out += &format!("  remedy: {}\n", on_one_line(&f.remedy.words));
        for way in f.remedy.ways.iter().filter(|way| way.settings.len() < LONG) {
            let set: Vec<String> = way.settings.iter().map(|s| s.said(unit)).collect();
            out += &format!("  in the file: {}\n", on_one_line(&set.join("; ")));
        }
        out += &format!("  key: {}\n\n", said(&f.path));
    }
    out += &format!(
        "{name}: no problems in the file; {} to watch\n",
        findings.len()
    );
    out
}
