//! A plant shown while it is written: its site from memory, over HTTP, following its files.
//!
//! [`path`] and [`anchor`] are plain functions; [`watch`] looks at files and [`server`] at the
//! network. What a page is, is up to who owns the [`server::Server`]: it is asked for paths of a site
//! and gives bytes. Must never make a path of the file system from a request, write anything, or listen
//! to another machine unless it was told to.

pub mod anchor;
pub mod path;
pub mod server;
pub mod watch;
