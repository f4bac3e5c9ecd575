//! Times whole studies of a model folder through the study layer, beside the engine alone: `--studies FOLDER COUNT [PASSES]`.
//!
//! Gauge study: every group of tubes takes one of sixteen sections. Triangulation study: one to ten of twenty-four diagonals
//! left out. Asked are the mass and one displacement a case; then one more displacement by a function of a script. Threads: one,
//! then as many as rayon has.

use std::sync::{Arc, Mutex};

use rayon::ThreadPool;
use strutwork_loads::{LoadCases, derive_plain};
use strutwork_model::files::InputFiles;
use strutwork_model::{Dof, Model, spec};
use strutwork_script::{Host, HostError, Limits, StudyEnd, StudyJob, run_script};
use strutwork_study::evaluate::Wanted;
use strutwork_study::sizing::{Choice, MovementCap, Size, Task, size, variables_of_groups};
use strutwork_study::{
    Asked, CaseSource, Change, Design, Evaluate, Exact, Fast, Levels, Pace, Parameter, Response, Row, Study, Trouble,
    Tubes, Value, Way, Why, run,
};

use crate::peak;
use crate::variants::{DIAGONALS, LEFT_OUT, Random, files, medians};

/// Sections that a group may take.
const SECTIONS: usize = 16;
/// Variants of a batch.
const BATCH: u64 = 4096;

/// The cases of the load files.
struct Plain;

impl CaseSource for Plain {
    fn cases(&self, model: &Arc<Model>, _: Wanted<'_>) -> Result<LoadCases, Trouble> {
        derive_plain(model).map_err(|error| Trouble::from(&error))
    }

    fn texts(&self) -> Vec<(String, String)> {
        Vec::new()
    }
}

/// The folder with sections to choose from.
fn with_sections(folder: &str) -> InputFiles {
    let mut files = files(folder);
    let file = files.0.iter_mut().find(|file| file.name == "model.toml").expect("a model.toml");
    let mut text = String::from_utf8_lossy(&file.bytes).into_owned();
    for number in 0..SECTIONS {
        let times = 0.6 + number as f64 / SECTIONS as f64;
        let [a, i, j] = [214.0, 27_200.0, 45_400.0].map(|value| value * times);
        text.push_str(&format!(
            "\n[sections.\"size {number}\"]\nshape = \"properties\"\narea_mm2 = {a}\niy_mm4 = {i}\niz_mm4 = {i}\nj_mm4 = {j}\n"
        ));
    }
    file.bytes = text.into_bytes();
    files
}

fn pool(threads: usize) -> ThreadPool {
    rayon::ThreadPoolBuilder::new().num_threads(threads).stack_size(64 << 20).build().expect("threads can be started")
}

/// Evaluates all variants, and counts those that were solved together.
fn pass(study: &Study, evaluator: &dyn Evaluate, pool: &ThreadPool, count: u64) -> usize {
    let mut together = 0;
    let kept = run(study, evaluator, 0..count, pool, BATCH, |rows: Vec<Row>| {
        together += rows.iter().filter(|row| !matches!(row.outcome.way, Way::Whole(_))).count();
        std::hint::black_box(&rows);
        Ok::<_, std::convert::Infallible>(Pace::Next(BATCH))
    });
    let Ok(_) = kept;
    together
}

fn parameter(study: &Study, change: Change, values: Vec<Value>) -> Parameter {
    Parameter::new(&study.base, None, change, Levels::List(values)).expect("the folder has what is varied")
}

/// A study with a mass and a displacement for each case.
fn asked(files: &InputFiles, model: &Model, cases: &LoadCases) -> Study {
    let mut study = Study::new("bench", spec::parse(files).0);
    let mut ask = |name: &str, asked| study.responses.push(Response { name: name.to_owned(), asked });
    ask("tubes_kg", Asked::TubesMass);
    let joint = &model.joints().iter().last().expect("a joint").name;
    for case in &cases.0 {
        ask(&case.name, Asked::Movement { case: case.name.clone(), joint: joint.clone(), dof: Dof::Uz });
    }
    study
}

fn groups(model: &Model) -> Vec<String> {
    let mut groups: Vec<String> = model.tubes().iter().map(|tube| tube.group.clone()).collect();
    groups.sort_unstable();
    groups.dedup();
    groups
}

/// Pools of one thread and of as many as rayon has: kept to the end, as a thread that ends takes its time with it.
type Pools = [Arc<ThreadPool>; 2];

fn tell(name: &str, study: &Study, pools: &Pools, count: u64, passes: usize, operations: f64) {
    let mut clock_of_one = 0.0;
    for pool in pools {
        let (threads, fast) = (pool.current_num_threads(), Fast::new(&Plain, None));
        let together = pass(study, &fast, pool, count.min(BATCH));
        let [clock, processor] = medians(passes, || {
            pass(study, &fast, pool, count);
        });
        let each = |seconds: f64| seconds / count as f64 * 1e6;
        println!(
            "{name}, {threads} threads: {:.2} µs a variant by the clock, {:.2} of the processor; {together} of the first {} together",
            each(clock),
            each(processor),
            count.min(BATCH)
        );
        if threads == 1 {
            clock_of_one = clock;
            if operations > 0.0 {
                println!("  {}", peak::flops_a_second().told(processor / count as f64, operations));
            }
            for line in fast.told() {
                println!("  {line}");
            }
        } else {
            println!("  {:.2} times one thread", clock_of_one / clock);
        }
    }
    let (exact, few) = (Exact::new(&Plain, None), 40.min(count));
    let [_, whole] = medians(1, || {
        for variant in 0..few {
            std::hint::black_box(exact.outcome(study, &study.values(variant), Why::Asked));
        }
    });
    println!("  the whole way, {few} of them: {:.0} µs a variant of the processor", whole / few as f64 * 1e6);
}

/// A script's host that has one model and times studies.
struct Timing {
    files: InputFiles,
    passes: usize,
    pool: Arc<ThreadPool>,
    took: Mutex<Vec<[f64; 2]>>,
}

impl Host for Timing {
    fn read_below(&self, path: &str) -> Result<Vec<u8>, HostError> {
        Err(HostError { path: path.to_owned(), reason: "there is no such file".to_owned(), environment: false })
    }

    fn read_model_folder(&self, _: &str) -> Result<InputFiles, HostError> {
        Ok(self.files.clone())
    }

    fn write_below(&self, path: &str, _: &[u8]) -> Result<(), HostError> {
        Err(HostError { path: path.to_owned(), reason: "nothing is written".to_owned(), environment: false })
    }

    fn print(&self, line: &str) {
        println!("{line}");
    }

    fn run_study(&self, job: &StudyJob<'_>, _: &mut dyn FnMut(&Row)) -> Result<StudyEnd, HostError> {
        let (pool, count) = (&self.pool, job.study.count().expect("a study"));
        let together = pass(job.study, job.evaluator, pool, count);
        assert_eq!(together as u64, count, "all go together");
        let times = medians(self.passes, || {
            pass(job.study, job.evaluator, pool, count);
        });
        self.took.lock().expect("one thread").push(times.map(|time| time / count as f64 * 1e6));
        Ok(StudyEnd::Partly)
    }
}

/// The gauge study as a script has it, without and with a function of its own.
fn scripted(files: &InputFiles, model: &Model, cases: &LoadCases, pools: &Pools, count: u64, passes: usize) {
    let joint = &model.joints().iter().last().expect("a joint").name;
    let mut text = String::from("let s = open_model(\"model\").new_study(\"gauge\");\n");
    let sizes: Vec<String> = (0..SECTIONS).map(|number| format!("\"size {number}\"")).collect();
    for group in groups(model) {
        text.push_str(&format!("s.vary_size(\"{group}\", [{}]);\n", sizes.join(", ")));
    }
    text.push_str(&format!("s.latin_hypercube({count}, 1);\ns.ask_mass();\n"));
    for case in &cases.0 {
        text.push_str(&format!("s.ask_movement(\"{}\", \"{joint}\", \"uz\");\n", case.name));
    }
    let case = &cases.0[0].name;
    let own = format!(
        "s.ask(\"ratio\", |r| {{ let d = r.displacement(\"{case}\", \"{joint}\"); d.uz_mm / (1.0 + abs(d.ux_mm)) }});\n"
    );
    for (name, pool) in ["1 thread", "all threads"].into_iter().zip(pools) {
        let mut times = Vec::new();
        for own in ["", own.as_str()] {
            let host =
                Arc::new(Timing { files: files.clone(), passes, pool: Arc::clone(pool), took: Mutex::default() });
            let limits = Limits { seconds: f64::INFINITY, ..Limits::default() };
            let script = format!("{text}{own}s.run();\n");
            run_script(host.clone(), "bench.rhai", &script, &[], limits).unwrap_or_else(|error| panic!("{error}"));
            times.extend(host.took.lock().expect("one thread").iter().copied());
        }
        if let [[without, p], [with, q]] = times.as_slice() {
            println!(
                "gauge study of a script, {name}: {without:.2} µs a variant by the clock ({p:.2} of the processor); with a function \
                 of its own {with:.2} ({q:.2}): {:+.1} % ({:+.1} %)",
                (with / without - 1.0) * 100.0,
                (q / p - 1.0) * 100.0
            );
        }
    }
}

pub(crate) fn run_all(arguments: &[String]) {
    let [folder, count, rest @ ..] = arguments else { panic!("--studies FOLDER COUNT [PASSES]") };
    let count: u64 = count.parse().expect("a number of variants");
    let passes = rest.first().map_or(5, |passes| passes.parse().expect("a number of passes"));
    let pools: Pools = [1, rayon::current_num_threads()].map(|threads| Arc::new(pool(threads)));
    let files = with_sections(folder);
    let model = Arc::new(strutwork_model::read_model(&files).expect("the model is sound").value);
    let cases = derive_plain(&model).expect("the frame is held");
    let family = strutwork_solve::reanalysis::Family::of(&model, &cases).expect("the frame stands");
    println!("{folder}: {count} variants; {:.3}e6 operations a variant anew", family.flops() / 1e6);
    let mut gauge = asked(&files, &model, &cases);
    for group in groups(&model) {
        let sizes = (0..SECTIONS).map(|number| Value::Word(format!("size {number}"))).collect();
        let parameter = parameter(&gauge, Change::Size(Tubes::Group(group)), sizes);
        gauge.parameters.push(parameter);
    }
    gauge.design = Design::LatinHypercube { count, seed: 1 };
    tell("gauge study", &gauge, &pools, count, passes, family.flops());
    let mut diagonals = asked(&files, &model, &cases);
    let names = model.tubes().iter().filter(|tube| tube.group == "side-diagonals").map(|tube| tube.name.clone());
    for name in names.take(DIAGONALS) {
        let parameter = parameter(&diagonals, Change::Presence(vec![name]), vec!["on".into(), "off".into()]);
        diagonals.parameters.push(parameter);
    }
    let mut random = Random::new(1);
    let rows = (0..count).map(|_| {
        let mut row = vec![Value::from("on"); diagonals.parameters.len()];
        for _ in 0..1 + random.below(LEFT_OUT) {
            let place = random.below(row.len());
            row[place] = "off".into();
        }
        row
    });
    diagonals.design = Design::List(rows.collect());
    tell("triangulation study, 1 to 10 left out", &diagonals, &pools, count, passes, 0.0);
    scripted(&files, &model, &cases, &pools, count, passes);
    sized(&files, &model, &cases);
}

/// The lightest sizes of every group that keep a joint as still as it is: the search, and what its designs would take by
/// themselves.
fn sized(files: &InputFiles, model: &Model, cases: &LoadCases) {
    let of_list = |number: usize| {
        let name = format!("size {number}");
        let section = model.sections().iter().find(|section| section.name == name).expect("it was added").clone();
        Size { name, section, price_per_m: None }
    };
    let choice = Choice::List((0..SECTIONS).map(of_list).collect());
    let spec = spec::parse(files).0;
    let derive = |model: &Model| derive_plain(model).map_err(|error| error.to_string());
    let mut task = Task::new(&spec, &derive, variables_of_groups(model, &choice));
    let results = strutwork_solve::solve_cases(model, cases).expect("the frame stands");
    let joint = model.joints().ids().last().expect("a joint");
    for (case, result) in cases.0.iter().zip(&results.cases) {
        let at_most = result.displacements[joint][2].abs().max(1e-5);
        let (case, joint) = (Some(case.name.clone()), model.joints()[joint].name.clone());
        task.limits.movements.push(MovementCap { case, joint, dof: Dof::Uz, at_most });
    }
    let mut found = None;
    let [clock, processor] = medians(1, || found = Some(size(&task).expect("a task")));
    let Some(outcome) = found else { return };
    let effort = outcome.effort;
    let [_, whole] = medians(5, || {
        let model = strutwork_model::validate::validate(&spec).expect("the model is sound").value;
        let cases = derive_plain(&model).expect("the frame is held");
        std::hint::black_box(strutwork_solve::solve_cases(&model, &cases).expect("the frame stands"));
    });
    println!(
        "sizing of {} groups from {SECTIONS} sizes: {:.2} s by the clock, {:.2} of the processor; {:.3} kg, {:?}\n  {effort:?}\n  \
         its {} designs by themselves, from their specs: {:.2} s of the processor",
        task.variables.len(),
        clock,
        processor,
        outcome.best.as_ref().map_or(f64::NAN, |best| best.mass_kg),
        outcome.proof,
        effort.solutions,
        whole * effort.solutions as f64
    );
}
