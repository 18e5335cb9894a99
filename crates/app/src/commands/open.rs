//! The page: a folder of projects in the browser.

use std::path::PathBuf;

use files::report::on_one_line;

use crate::output::{print, shown};
use crate::serve::{Folder, listen};
use crate::{CommandError, Outcome};

/// The port that is tried first, so that an open page finds the program again.
const USUAL_PORT: u16 = 7468;

/// Arguments of `open`.
#[derive(clap::Args)]
pub struct Args {
    /// The folder of projects; the current one where it is left out.
    folder: Option<PathBuf>,
    /// The port on 127.0.0.1; 0 takes any that is free.
    #[arg(long)]
    port: Option<u16>,
    /// Only print the address.
    #[arg(long)]
    no_browser: bool,
}

/// Runs the command, until it is ended.
pub fn run(args: &Args) -> Outcome {
    let path = args.folder.clone().unwrap_or_else(|| PathBuf::from("."));
    let folder = Folder::open(&path).map_err(|t| CommandError::Say(on_one_line(&t.what)))?;
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .enable_all()
        .max_blocking_threads(32)
        .build()?;
    runtime.block_on(async {
        let listening = match args.port {
            Some(port) => listen(folder, port).await,
            None => match listen(folder.clone(), USUAL_PORT).await {
                Ok(listening) => Ok(listening),
                // Taken, perhaps by this program with another folder.
                Err(_) => listen(folder, 0).await,
            },
        };
        let listening = listening.map_err(CommandError::Say)?;
        let address = listening.address.clone();
        print(&format!("{}\n{address}\nEnd with Ctrl-C.\n", shown(&path)))?;
        if !args.no_browser {
            browse(&address);
        }
        tokio::select! {
            () = listening.serve() => {}
            _ = tokio::signal::ctrl_c() => {}
        }
        Ok(true)
    })
}

/// Asks the system to show an address; where it cannot, the address is printed anyway.
fn browse(address: &str) {
    let (program, arguments): (&str, &[&str]) = if cfg!(target_os = "macos") {
        ("open", &[])
    } else if cfg!(windows) {
        ("rundll32", &["url.dll,FileProtocolHandler"])
    } else {
        ("xdg-open", &[])
    };
    let _ = std::process::Command::new(program)
        .args(arguments)
        .arg(address)
        .stdin(std::process::Stdio::null())
        .stdout(std::process::Stdio::null())
        .stderr(std::process::Stdio::null())
        .spawn();
}
