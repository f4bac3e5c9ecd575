use strutwork_validation::{run, suite};
fn main() {
    let wanted = std::env::args().nth(1).unwrap_or_default();
    for case in suite().cases.iter().filter(|case| format!("{}/{}", case.family, case.name).starts_with(&wanted)) {
        let t = std::time::Instant::now();
        let r = run(case);
        println!("{:6.0} ms {}/{} {}", t.elapsed().as_secs_f64() * 1e3, case.family, case.name, if r.agrees() { "" } else { "WRONG" });
        if let Some(f) = &r.failure { println!("   FAIL {f}"); }
        for row in r.rows.iter().filter(|row| !row.agrees) { println!("   {} printed {} ours {} ({:+.2}) {}", row.what, row.printed, row.computed, row.difference, row.problem); }
        for s in r.studies.iter().filter(|s| !s.holds || !wanted.is_empty()) { println!("   {} -> {} {} order {} {}", s.what, s.limit, s.unit, s.order, s.holds); for x in &s.steps { println!("      {:4} {} {:+.3e} {:.3} {}", x.parts, x.computed, x.error, x.order, x.problem); } }
    }
}
