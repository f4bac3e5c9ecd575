//! Imports: the embedded case scripts first, then what the host finds below the script's folder. Nothing else.

use std::collections::BTreeMap;
use std::sync::Mutex;

use rhai::{Engine, EvalAltResult, Module, ModuleResolver, Position, Scope, Shared};

use crate::fault::Fault;
use crate::host::below;
use crate::session::{Session, lock};
use crate::standard::STANDARD_CASES;

type Raised = Box<EvalAltResult>;

/// Finds imported scripts. Each is run once; importing it again gives the same module.
pub(crate) struct Confined {
    session: Session,
    /// `None` while a script is being run, so that a circle is seen.
    modules: Mutex<BTreeMap<String, Option<Shared<Module>>>>,
}

impl Confined {
    pub(crate) fn new(session: Session) -> Self {
        Self { session, modules: Mutex::default() }
    }

    /// The text of a script, and the name that messages give it.
    fn text(&self, path: &str) -> Result<(String, String), Fault> {
        if let Some((name, text)) = STANDARD_CASES.iter().find(|(name, _)| path == format!("cases/{name}")) {
            return Ok((format!("cases/{name}.rhai"), (*text).to_owned()));
        }
        below(path)?;
        let file = if path.ends_with(".rhai") { path.to_owned() } else { format!("{path}.rhai") };
        let bytes = self.session.host().read_below(&file)?;
        let refuse = |why| Fault::PathRefused { path: path.to_owned(), why };
        let text = String::from_utf8(bytes).map_err(|_| refuse("the file is not UTF-8 text"))?;
        Ok((file, text))
    }

    fn run(&self, engine: &Engine, path: &str, position: Position) -> Result<Shared<Module>, Raised> {
        let (file, text) = self.text(path).map_err(|fault| placed(fault, position))?;
        self.session.note_import(&file, &text);
        let in_file = |error: Raised| Box::new(EvalAltResult::ErrorInModule(file.clone(), error, position));
        let mut ast = engine.compile(text).map_err(|error| in_file(Box::new(error.into())))?;
        ast.set_source(file.as_str());
        let module = Module::eval_ast_as_new(Scope::new(), &ast, engine).map_err(in_file)?;
        Ok(module.into())
    }
}

impl ModuleResolver for Confined {
    fn resolve(
        &self,
        engine: &Engine,
        _source: Option<&str>,
        path: &str,
        position: Position,
    ) -> Result<Shared<Module>, Raised> {
        let known = lock(&self.modules).get(path).cloned();
        match known {
            Some(Some(module)) => return Ok(module),
            Some(None) => {
                let why = "scripts import each other in a circle";
                return Err(placed(Fault::PathRefused { path: path.to_owned(), why }, position));
            }
            None => {}
        }
        lock(&self.modules).insert(path.to_owned(), None);
        let module = self.run(engine, path, position);
        match &module {
            Ok(module) => lock(&self.modules).insert(path.to_owned(), Some(module.clone())),
            Err(_) => lock(&self.modules).remove(path),
        };
        module
    }
}

fn placed(fault: Fault, position: Position) -> Raised {
    Box::new(EvalAltResult::ErrorRuntime(rhai::Dynamic::from(fault), position))
}
