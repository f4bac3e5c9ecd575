//! How the script engine is set up: limits, arithmetic, imports, what is refused.

use rhai::Engine;

use crate::api;
use crate::closures;
use crate::limits::Limits;
use crate::operators;
use crate::resolver::Confined;
use crate::session::Session;

/// Nesting of expressions: deeper than any that a person writes, shallow enough for every stack.
const EXPRESSION_DEPTH: usize = 64;

/// An engine for one session.
pub(crate) fn engine(session: &Session) -> Engine {
    let mut engine = vocabulary();
    limit(&mut engine, session.limits());
    closures::bound(&mut engine, session.limits().list_items);
    engine.set_default_tag(rhai::Dynamic::from(session.clone()));
    engine.set_module_resolver(Confined::new(session.clone()));
    let steps = session.clone();
    engine.on_progress(move |_| steps.count_step().map(rhai::Dynamic::from));
    let lines = session.clone();
    engine.on_print(move |line| lines.host().print(line));
    let debug = session.clone();
    engine.on_debug(move |line, _, place| debug.host().print(&format!("{place:?}: {line}")));
    engine
}

/// An engine with every function and no session: for the reference.
pub(crate) fn vocabulary() -> Engine {
    let mut engine = Engine::new();
    engine
        .set_strict_variables(true)
        .set_fail_on_invalid_map_property(true)
        // Otherwise the division of whole numbers below would be ignored in favour of the built-in one.
        .set_fast_operators(false)
        .disable_symbol("eval");
    operators::register(&mut engine);
    api::register(&mut engine);
    engine
}

fn limit(engine: &mut Engine, limits: &Limits) {
    engine
        .set_max_call_levels(limits.depth.clamp(1, Limits::DEEPEST))
        .set_max_expr_depths(EXPRESSION_DEPTH, EXPRESSION_DEPTH)
        .set_max_string_size(limits.text_bytes.max(1))
        .set_max_array_size(limits.list_items.max(1))
        .set_max_map_size(limits.map_entries.max(1));
}
