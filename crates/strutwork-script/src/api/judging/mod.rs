//! What the frame is judged by.

mod basis;
mod connections;
mod use_limits;

use rhai::Engine;

pub(super) fn register(engine: &mut Engine) {
    basis::register(engine);
    connections::register(engine);
    use_limits::register(engine);
}
