//! Arithmetic as an engineer means it: `5 / 2` is 2.5, and a division by zero stops the script.
#![expect(unreachable_pub, reason = "the engine's macro registers `pub` functions only")]

use rhai::plugin::*;

use crate::fault::Fault;
use crate::number::number;

/// Divides any two numbers.
fn divide(a: &Dynamic, b: &Dynamic) -> Result<f64, Fault> {
    let (a, b) = (number("the number that is divided", a)?, number("the divisor", b)?);
    if b == 0.0 { Err(Fault::DivisionByZero) } else { Ok(a / b) }
}

#[export_module]
mod operators {
    use super::*;

    #[rhai_fn(name = "/", return_raw)]
    pub fn divide_whole(a: i64, b: i64) -> Result<f64, Box<EvalAltResult>> {
        Ok(divide(&a.into(), &b.into())?)
    }

    #[rhai_fn(name = "/", return_raw)]
    pub fn divide_whole_by_decimal(a: i64, b: f64) -> Result<f64, Box<EvalAltResult>> {
        Ok(divide(&a.into(), &b.into())?)
    }

    #[rhai_fn(name = "/", return_raw)]
    pub fn divide_decimal_by_whole(a: f64, b: i64) -> Result<f64, Box<EvalAltResult>> {
        Ok(divide(&a.into(), &b.into())?)
    }

    #[rhai_fn(name = "/", return_raw)]
    pub fn divide_decimal(a: f64, b: f64) -> Result<f64, Box<EvalAltResult>> {
        Ok(divide(&a.into(), &b.into())?)
    }

    #[rhai_fn(name = "/=", return_raw)]
    pub fn divide_in_place(a: &mut Dynamic, b: Dynamic) -> Result<(), Box<EvalAltResult>> {
        *a = divide(a, &b)?.into();
        Ok(())
    }

    // One for each type of number: the language's own would win over one for any value.
    #[rhai_fn(name = "sleep", return_raw)]
    pub fn no_sleep(_seconds: i64) -> Result<(), Box<EvalAltResult>> {
        no_sleep_decimal(0.0)
    }

    #[rhai_fn(name = "sleep", return_raw)]
    pub fn no_sleep_decimal(_seconds: f64) -> Result<(), Box<EvalAltResult>> {
        Err(Fault::Refused { function: "sleep", why: "nothing waits for it" }.into())
    }

    #[rhai_fn(name = "timestamp", return_raw)]
    pub fn no_clock() -> Result<(), Box<EvalAltResult>> {
        Err(Fault::Refused { function: "timestamp", why: "a result must not depend on the time of day" }.into())
    }

    #[rhai_fn(name = "to_string")]
    pub fn fault_to_string(fault: &mut Fault) -> String {
        fault.to_string()
    }

    #[rhai_fn(name = "print")]
    pub fn fault_to_print(fault: &mut Fault) -> String {
        fault.to_string()
    }

    #[rhai_fn(get = "code", pure)]
    pub fn fault_code(fault: &mut Fault) -> String {
        fault.code().to_string()
    }

    #[rhai_fn(get = "message", pure)]
    pub fn fault_message(fault: &mut Fault) -> String {
        fault.to_string()
    }

    #[rhai_fn(get = "help", pure)]
    pub fn fault_help(fault: &mut Fault) -> String {
        fault.help()
    }
}

/// Registers the operators, what is refused, and what a script can read of an error that it catches.
pub(crate) fn register(engine: &mut Engine) {
    engine.register_type_with_name::<Fault>("Error");
    engine.register_global_module(exported_module!(operators).into());
}
