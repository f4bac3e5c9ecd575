//! All cases, and the book made of them.

mod agreement;
mod book;
