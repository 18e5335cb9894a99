//! drawings
