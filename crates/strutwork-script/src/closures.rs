//! Closures within closures: bounded, because the language itself does not count them.

use rhai::{Dynamic, Engine, EvalAltResult, Position};

/// Closures that hold closures that hold closures …: more than anyone writes, fewer than any stack minds when they are
/// taken apart again.
const DEEPEST: usize = 64;

/// Items looked at before a value counts as too large, besides those that the limits allow to an array.
const SPARE_ITEMS: usize = 10_000;

/// Stops a script that captures values nested too deeply.
///
/// A closure keeps what it captures, which may hold another closure, and so on. The size limits of the language look into
/// arrays and maps, not into closures, and taking a very long chain apart would overflow the stack. Every link of such a
/// chain is a captured variable, which the language marks as shared: so it is enough to look into shared variables when
/// they are read.
pub(crate) fn bound(engine: &mut Engine, list_items: usize) {
    // Copies what a function pointer holds, doubling it at every call: closures do the same without copying.
    engine.disable_symbol("curry");
    // The hook is called "volatile" because its context may change between releases; only the scope is used.
    #[expect(deprecated, reason = "the one way to see a variable before it is read")]
    engine.on_var(move |name, _, context| match context.scope().get(name) {
        Some(value) if value.is_shared() => {
            let mut items = list_items.saturating_mul(2).saturating_add(SPARE_ITEMS);
            if shallow(value, DEEPEST, &mut items) {
                Ok(None)
            } else {
                let what = "Nesting of closures".to_owned();
                Err(EvalAltResult::ErrorDataTooLarge(what, Position::NONE).into())
            }
        }
        _ => Ok(None),
    });
}

/// Whether a value is nested no deeper than so many levels and holds no more than so many items.
fn shallow(value: &Dynamic, levels: usize, items: &mut usize) -> bool {
    if value.is_shared() {
        // A variable that is being written at this moment is looked at when it is next read.
        return value.is_locked() || value.read_lock::<Dynamic>().is_none_or(|inner| within(&inner, levels, items));
    }
    within(value, levels, items)
}

fn within(value: &Dynamic, levels: usize, items: &mut usize) -> bool {
    let Some(left) = items.checked_sub(1) else { return false };
    *items = left;
    let mut deeper = |value: &Dynamic| levels > 0 && shallow(value, levels - 1, items);
    if let Ok(list) = value.as_array_ref() {
        list.iter().all(deeper)
    } else if let Ok(map) = value.as_map_ref() {
        map.values().all(deeper)
    } else if let Some(function) = value.read_lock::<rhai::FnPtr>() {
        function.curry().iter().all(&mut deeper)
    } else {
        true
    }
}
