#[test]
fn zz() {
    use strutwork_solve::*;
    let mut out = String::new();
    for frame in crate::exact_buckling::frames() {
        let mut model = strutwork_testkit::Folder::default();
        for name in ["model.toml", "joints.csv", "tubes.csv", "supports.csv", "loads.csv"] {
            model = model.with(name, crate::exact_buckling::read(&frame, name));
        }
        let model = model.model();
        let cases = strutwork_loads::derive_plain(&model).unwrap();
        let results = solve_cases(&model, &cases).unwrap();
        let t = std::time::Instant::now();
        let f = buckle_cases(&model, &cases, &[], &results, BucklingWanted { count: 4, pieces: Pieces::AUTOMATIC }).unwrap();
        out += &format!("{} {:?} {:?}\n   {:?}\n", frame.file_name().unwrap().display(), t.elapsed(), f.counters, f.cases.iter().map(|f| f.pieces.iter().copied().collect::<Vec<_>>()).collect::<Vec<_>>());
        std::fs::write("/tmp/wt/zz.txt", &out).unwrap();
    }
}
