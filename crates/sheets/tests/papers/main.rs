//! The papers, checked from outside: read, rendered and measured by programs and
//! libraries that are not ours.

mod bench;
mod measured;
mod raster;
mod read;
mod reread;
