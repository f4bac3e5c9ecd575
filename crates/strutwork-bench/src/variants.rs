//! Times studies of many variants of a model folder: `--variants FOLDER COUNT [PASSES]`.
//!
//! Gauge study: every group of tubes scaled by a factor of its own. Triangulation study: some of twenty-four diagonals left out.
//! Each variant's displacements of all joints in all cases are read off. Times are medians of passes: by the clock, and of the
//! processor for all threads together, which does not count what others do on the machine.

use std::time::Instant;

use rayon::prelude::*;
use strutwork_model::files::{InputFile, InputFiles};
use strutwork_model::{JointId, Model, TubeId};
use strutwork_solve::reanalysis::{Family, Moved, Outcome, TubeSet, TubeStiffness, Variant, Worker};

use crate::peak;

/// Diagonals of the triangulation study, and how many of them are left out at most.
pub(crate) const DIAGONALS: usize = 24;
pub(crate) const LEFT_OUT: usize = 10;
/// Variants that a thread takes at a time.
const BLOCK: usize = 64;

/// The files of a folder.
pub(crate) fn files(folder: &str) -> InputFiles {
    let mut files = Vec::new();
    for entry in std::fs::read_dir(folder).expect("the folder can be read") {
        let path = entry.expect("an entry").path();
        let name = path.file_name().expect("a name").to_string_lossy().into_owned();
        files.push(InputFile { name, bytes: std::fs::read(&path).expect("the file can be read") });
    }
    files.sort_by(|a, b| a.name.cmp(&b.name));
    InputFiles(files)
}

/// Numbers from 0 to 1, the same in every run.
pub(crate) struct Random(u64);

impl Random {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }

    pub(crate) fn below(&mut self, count: usize) -> usize {
        (self.next() * count as f64) as usize
    }
}

/// The stiffness of a tube as it is in the model, times a factor.
fn scaled(model: &Model, tube: TubeId, times: f64) -> TubeStiffness {
    let row = &model.tubes()[tube];
    let s = TubeStiffness::new(&model.sections()[row.section], &model.materials()[row.material]);
    TubeStiffness { ea: times * s.ea, gj: times * s.gj, eiy: times * s.eiy, eiz: times * s.eiz }
}

/// Reads off every joint in every case.
fn read_off(moved: &Moved<'_>, cases: usize, joints: &[JointId], out: &mut [f64]) {
    for case in 0..cases {
        for (joint, place) in joints.iter().zip(out[6 * joints.len() * case..].chunks_exact_mut(6)) {
            place.copy_from_slice(&moved.joint(case, *joint));
        }
    }
}

/// Seconds that all threads have had of the processor.
fn processor_seconds() -> f64 {
    let threads = std::fs::read_dir("/proc/self/task").into_iter().flatten().flatten();
    let had = threads.filter_map(|thread| {
        let text = std::fs::read_to_string(thread.path().join("schedstat")).ok()?;
        text.split_whitespace().next()?.parse::<f64>().ok()
    });
    had.sum::<f64>() * 1e-9
}

/// Median seconds of passes over the same work: by the clock, and of the processor.
pub(crate) fn medians(passes: usize, mut work: impl FnMut()) -> [f64; 2] {
    let mut times = [Vec::new(), Vec::new()];
    for _ in 0..passes {
        let (clock, processor) = (Instant::now(), processor_seconds());
        work();
        times[0].push(clock.elapsed().as_secs_f64());
        times[1].push(processor_seconds() - processor);
    }
    times.map(|mut times| {
        times.sort_by(f64::total_cmp);
        times[times.len() / 2]
    })
}

/// Everything that a study is timed with.
struct Study<'f> {
    family: &'f Family,
    joints: Vec<JointId>,
    cases: usize,
    passes: usize,
}

impl Study<'_> {
    /// Times variants on one thread and on all, and prints it.
    fn time(&self, name: &str, variants: &[Variant], operations: f64) {
        let mut out = vec![0.0; 6 * self.joints.len() * self.cases];
        let mut worker = self.family.worker();
        let mut failed = 0;
        let [clock, processor] = medians(self.passes, || self.pass(&mut worker, variants, &mut out, &mut failed));
        let work = worker.work();
        let each = |seconds: f64| seconds / variants.len() as f64 * 1e6;
        println!(
            "{name}: {:.2} µs a variant by the clock, {:.2} of the processor ({:.0} a second); {failed} failed",
            each(clock),
            each(processor),
            variants.len() as f64 / clock
        );
        if operations > 0.0 {
            println!("  {}", peak::flops_a_second().told(clock / variants.len() as f64, operations));
        }
        println!("  {work:?}");
        let [all, all_processor] = medians(self.passes, || {
            variants.par_chunks(BLOCK).for_each_init(
                || (self.family.worker(), vec![0.0; out.len()]),
                |(worker, out), chunk| self.pass(worker, chunk, out, &mut 0),
            );
        });
        println!(
            "  on {} threads {:.2} µs by the clock: {:.2} times one; {:.2} of the processors",
            rayon::current_num_threads(),
            each(all),
            clock / all,
            each(all_processor)
        );
    }

    fn pass(&self, worker: &mut Worker<'_>, variants: &[Variant], out: &mut [f64], failed: &mut usize) {
        worker.solve(variants, |_, outcome| match outcome {
            Outcome::Solved(moved) => {
                read_off(&moved, self.cases, &self.joints, out);
                std::hint::black_box(&out);
            }
            Outcome::Failed(_) => *failed += 1,
        });
    }
}

pub(crate) fn run(arguments: &[String]) {
    let [folder, count, rest @ ..] = arguments else { panic!("--variants FOLDER COUNT [PASSES]") };
    let count: usize = count.parse().expect("a number of variants");
    let passes = rest.first().map_or(5, |passes| passes.parse().expect("a number of passes"));
    let model = std::sync::Arc::new(strutwork_model::read_model(&files(folder)).expect("the model is sound").value);
    let cases = strutwork_loads::derive_plain(&model).expect("the frame is held");
    let mut family = Family::of(&model, &cases).expect("the frame stands");
    let mut names: Vec<&str> = model.tubes().iter().map(|tube| tube.group.as_str()).collect();
    names.sort_unstable();
    names.dedup();
    let members = |name: &str| -> Vec<TubeId> {
        model.tubes().iter_with_id().filter(|(_, tube)| tube.group == name).map(|(id, _)| id).collect()
    };
    let groups: Vec<(TubeSet, TubeId)> =
        names.iter().map(|name| members(name)).map(|list| (family.tubes(&list), list[0])).collect();
    let diagonals: Vec<TubeId> = members("side-diagonals").into_iter().take(DIAGONALS).collect();
    let choice: Vec<TubeSet> = diagonals.iter().map(|tube| family.tubes(&[*tube])).collect();
    family.keep(&choice);
    let mut random = Random::new(1);
    let gauge: Vec<Variant> = (0..count)
        .map(|_| {
            groups.iter().fold(Variant::new(), |variant, (set, first)| {
                variant.with(*set, scaled(&model, *first, 0.6 + random.next()))
            })
        })
        .collect();
    let mut some = |exactly: bool| -> Vec<Variant> {
        (0..count)
            .map(|_| {
                let mut left: Vec<TubeSet> = choice.clone();
                let gone = if exactly { LEFT_OUT } else { 1 + random.below(LEFT_OUT) };
                (0..gone).fold(Variant::new(), |variant, _| variant.without(left.swap_remove(random.below(left.len()))))
            })
            .collect()
    };
    let (any, ten) = (some(false), some(true));
    println!(
        "{folder}: {count} variants, {} lanes; {:.3}e6 operations a variant anew",
        family.lanes(),
        family.flops() / 1e6
    );
    let study = Study { family: &family, joints: model.joints().ids().collect(), cases: cases.0.len(), passes };
    study.time("gauge", &gauge, family.flops());
    study.time("triangulation, 1 to 10 left out", &any, 0.0);
    study.time("triangulation, 10 left out", &ten, 0.0);
}
