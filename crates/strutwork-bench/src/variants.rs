//! Times studies of many variants on a model folder: `--variants FOLDER COUNT [THREADS]`.

use std::time::Instant;

use strutwork_model::files::{InputFile, InputFiles};
use strutwork_model::model::Model;
use strutwork_model::TubeId;
use strutwork_solve::reanalysis::{Family, Outcome, TubeSet, TubeStiffness, Variant};

use crate::peak;

/// Reads a model folder.
fn read(folder: &str) -> Model {
    let mut files = Vec::new();
    for entry in std::fs::read_dir(folder).expect("the folder can be read") {
        let path = entry.expect("an entry").path();
        let name = path.file_name().expect("a name").to_string_lossy().into_owned();
        files.push(InputFile { name, bytes: std::fs::read(&path).expect("the file can be read") });
    }
    files.sort_by(|a, b| a.name.cmp(&b.name));
    strutwork_model::read_model(&InputFiles(files)).expect("the model is sound").value
}

/// A number of 0 to 1, the same in every run.
struct Random(u64);

impl Random {
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }
}

/// The stiffness of a tube as it is in the model, times a factor.
fn scaled(model: &Model, tube: TubeId, times: f64) -> TubeStiffness {
    let row = &model.tubes()[tube];
    let s = TubeStiffness::new(&model.sections()[row.section], &model.materials()[row.material]);
    TubeStiffness { ea: times * s.ea, gj: times * s.gj, eiy: times * s.eiy, eiz: times * s.eiz }
}

/// Median seconds of several passes over the same work.
fn median(passes: usize, mut work: impl FnMut()) -> f64 {
    let mut times: Vec<f64> = (0..passes)
        .map(|_| {
            let start = Instant::now();
            work();
            start.elapsed().as_secs_f64()
        })
        .collect();
    times.sort_by(f64::total_cmp);
    times[passes / 2]
}

pub(crate) fn run(arguments: &[String]) {
    let [folder, count, rest @ ..] = arguments else { panic!("--variants FOLDER COUNT [PASSES]") };
    let count: usize = count.parse().expect("a number of variants");
    let passes = rest.first().map_or(5, |passes| passes.parse().expect("a number of passes"));
    let model = read(folder);
    let cases = strutwork_loads::derive_plain(&model).expect("the frame is held");
    let mut family = Family::of(&model, &cases).expect("the frame stands");
    let mut names: Vec<&str> = model.tubes().iter().map(|tube| tube.group.as_str()).collect();
    names.sort_unstable();
    names.dedup();
    let members = |name: &&str| -> Vec<TubeId> {
        model.tubes().iter_with_id().filter(|(_, tube)| tube.group == *name).map(|(id, _)| id).collect()
    };
    let groups: Vec<(TubeSet, TubeId)> = names.iter().map(members).map(|list| (family.tubes(&list), list[0])).collect();
    let joints: Vec<_> = model.joints().ids().collect();
    let mut random = Random(1);
    let gauge: Vec<Variant> = (0..count)
        .map(|_| {
            groups.iter().fold(Variant::new(), |variant, (set, first)| {
                variant.with(*set, scaled(&model, *first, 0.6 + random.next()))
            })
        })
        .collect();
    let peak = peak::flops_a_second();
    println!("peak {:.1} thousand million operations a second; {} lanes", peak / 1e9, family.lanes());
    let mut worker = family.worker();
    let mut sum = 0.0;
    let mut out = vec![0.0; 6 * joints.len() * cases.0.len()];
    let seconds = median(passes, || {
        worker.solve(&gauge, |_, outcome| {
            let Outcome::Solved(moved) = outcome else { panic!("a variant fails") };
            for case in 0..cases.0.len() {
                for (joint, place) in joints.iter().zip(out[6 * joints.len() * case..].chunks_exact_mut(6)) {
                    place.copy_from_slice(&moved.joint(case, *joint));
                }
            }
            sum += out[out.len() - 4];
        });
    });
    let each = seconds / count as f64;
    let ideal = family.flops() / peak;
    println!(
        "gauge: {:.2} µs a variant, {:.0} variants a second; {:.2} million operations, {:.2} µs at the peak: {:.2} times; {:?} {sum:.6e}",
        each * 1e6,
        1.0 / each,
        family.flops() / 1e6,
        ideal * 1e6,
        each / ideal,
        worker.work(),
    );
}
