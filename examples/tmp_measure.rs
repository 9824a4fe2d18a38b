use std::time::{Duration, Instant};
fn main() {
    let args: Vec<String> = std::env::args().collect();
    let ms: u64 = args[1].parse().unwrap();
    for f in &args[2..] {
        let text = std::fs::read_to_string(f).unwrap();
        let inst: tackfree::plan::Instance = serde_json::from_str(&text).unwrap();
        let t = Instant::now();
        let mut stop = || t.elapsed() >= Duration::from_millis(ms);
        let r = tackfree::plan::search::raw(&inst, 1, &mut stop);
        let el = t.elapsed().as_millis();
        let name = std::path::Path::new(f).file_stem().unwrap().to_str().unwrap();
        println!("{name} {} {} {} {} {el}", r.0, r.1, r.2, r.3);
        if let Ok(d) = std::env::var("OUT") {
            let m: Vec<String> = r.4.iter().map(|(i, s)| format!("\"{i}\":{s}")).collect();
            std::fs::write(format!("{d}/{name}.json"), format!("{{\"start\":{{{}}}}}", m.join(","))).unwrap();
        }
    }
}
