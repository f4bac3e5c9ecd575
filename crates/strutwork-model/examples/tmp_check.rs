use strutwork_model::*;
fn main() {
    for dir in std::env::args().skip(1) {
        let mut files = vec![];
        for e in std::fs::read_dir(&dir).unwrap() { let e = e.unwrap(); if e.path().is_file() { files.push(InputFile::new(e.file_name().to_string_lossy().to_string(), std::fs::read(e.path()).unwrap())); } }
        let t = std::time::Instant::now();
        match read_model(&InputFiles(files)) { Ok(m) => { for w in &m.warnings { println!("{dir}: {w}"); } println!("{dir} ok {:?} {} tubes", t.elapsed(), m.value.tubes().len()) }, Err(Faults(f)) => for x in f.iter().take(8) { println!("{dir}: {x}") } }
    }
}
