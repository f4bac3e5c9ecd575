//! Files made, and read back with the tools of a reader.

mod fitting;
mod hostile;
mod poppler;
mod reading;
mod specimen;
mod tables;
