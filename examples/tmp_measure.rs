use std::time::Instant;
use tackfree::plan::*;
fn main() {
    let args: Vec<String> = std::env::args().collect();
    let ms: u64 = args[1].parse().unwrap();
    for f in &args[2..] {
        let text = std::fs::read_to_string(f).unwrap();
        let inst: Instance = serde_json::from_str(&text).unwrap();
        let t = Instant::now();
        let cpu = || -> u64 {
            std::fs::read_to_string("/proc/thread-self/schedstat")
                .unwrap()
                .split(' ')
                .next()
                .unwrap()
                .parse()
                .unwrap()
        };
        let c0 = cpu();
        let mut n = 0u32;
        let mut stop = || {
            n += 1;
            n % 8 == 0 && cpu() - c0 >= ms * 1_000_000
        };
        let r = Plan::search(
            &inst,
            &SearchSettings {
                seed: std::env::var("SEED").map_or(1, |s| s.parse().unwrap()),
                iterations: u64::MAX,
                threads: 1,
                worth: Minute(0),
            },
            None,
            &mut stop,
        )
        .unwrap();
        let el = t.elapsed().as_millis();
        let name = std::path::Path::new(f)
            .file_stem()
            .unwrap()
            .to_str()
            .unwrap();
        println!(
            "{name} {} {} {} {} {el}",
            r.broken.len(),
            r.lateness,
            r.ends,
            0
        );
        if let Ok(d) = std::env::var("OUT") {
            let m: Vec<String> = r
                .lines
                .iter()
                .map(|l| format!("\"{}\":{}", l.op.0, l.start.0))
                .collect();
            std::fs::write(
                format!("{d}/{name}.json"),
                format!("{{\"start\":{{{}}}}}", m.join(",")),
            )
            .unwrap();
        }
    }
}
