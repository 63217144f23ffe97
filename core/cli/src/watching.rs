//! Notices that files are saved, in place or by renaming a new file over the old one.
//!
//! **Input:** folders. **Output:** the path of each file in them that was saved, as folder and name. On Linux the kernel
//! tells; elsewhere the folders are looked through ten times a second. **Does not** know which files matter.

#[cfg(target_os = "linux")]
mod inotify;
#[cfg(any(test, not(target_os = "linux")))]
mod polling;

#[cfg(target_os = "linux")]
pub(crate) use inotify::Watcher;
#[cfg(not(target_os = "linux"))]
pub(crate) use polling::Watcher;

#[cfg(test)]
mod tests;
