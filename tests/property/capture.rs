//! Whatever is brought in gives a shape or a message, never a panic, and soon.

use halfbreadth_core::{
    capture::{
        drawing::{self, LengthUnit},
        measured::{self, Options},
        table,
    },
    demo,
    format::{dxf, svg},
    units::System,
};
use halfbreadth_tests::random::Random;
use std::time::{Duration, Instant};

/// Far more than any reader takes on a shared machine in a test build.
const SOON: Duration = Duration::from_secs(20);

/// Reads a text as everything that it could be.
fn read_all(text: &str) {
    let start = Instant::now();
    let deck = demo::turnstone();
    if let Ok(rows) = table::read(text, System::Millimetres)
        && let Ok(taken) = measured::fit(&rows, &Options::default(), deck.shape())
    {
        let _ = deck.apply(&taken.edit());
    }
    for unit in [None, Some(LengthUnit::Millimetre)] {
        let options = drawing::Options { unit, ..drawing::Options::default() };
        if let Ok(taken) = drawing::read(text, &options, deck.shape()) {
            let _ = deck.apply(&taken.edit());
        }
    }
    assert!(start.elapsed() < SOON, "{} bytes took {:?}", text.len(), start.elapsed());
}

const TABLE: &str =
    "station;left;right\n-400;0;0\n-300;88,5;88\n-200;95;95\n0;100;100\n200;95;94,5\n300;88;88\n400;0;0\n";

fn samples() -> Vec<String> {
    vec![TABLE.to_owned(), svg::export(&demo::dunlin()), dxf::export(&demo::whimbrel())]
}

#[test]
fn random_bytes_give_a_message() {
    let random = &mut Random::new(11);
    for _ in 0..300 {
        let bytes: Vec<u8> =
            (0..random.below(400)).map(|_| u8::try_from(random.below(256)).unwrap_or(0)).collect();
        read_all(&String::from_utf8_lossy(&bytes));
    }
}

/// Letters that the readers know, in any order.
#[test]
fn words_of_the_formats_in_any_order_give_a_message() {
    const WORDS: [&str; 34] = [
        "0\n",
        "SECTION\n",
        "2\n",
        "ENTITIES\n",
        "BLOCKS\n",
        "BLOCK\n",
        "ENDBLK\n",
        "INSERT\n2\n7\n",
        "LINE\n",
        "10\n",
        "20\n",
        "40\n",
        "SPLINE\n",
        "71\n",
        "LWPOLYLINE\n",
        "42\n",
        "ENDSEC\n",
        "EOF\n",
        "1e308\n",
        "-7\n",
        "<svg width='9mm' viewBox='0 0 9 9'>",
        "<path d='",
        "M0 0",
        "A1 2 3 0 1 9 9",
        "c1 2 3 4 5 6",
        "z",
        "'/>",
        "<g transform='",
        "rotate(30)'>",
        "</g>",
        "</svg>",
        "100;",
        "8 1/4\t",
        "\n",
    ];
    let random = &mut Random::new(12);
    for _ in 0..600 {
        let text: String = (0..random.below(60)).map(|_| WORDS[random.below(WORDS.len())]).collect();
        read_all(&text);
    }
}

#[test]
fn good_files_with_a_few_bytes_changed_or_cut_off_give_a_shape_or_a_message() {
    let random = &mut Random::new(13);
    for sample in samples() {
        for _ in 0..60 {
            let mut bytes = sample.clone().into_bytes();
            for _ in 0..1 + random.below(4) {
                let at = random.below(bytes.len());
                bytes[at] = b"0123456789.-eE \n<>\"'/MZ"[random.below(23)];
            }
            if random.below(3) == 0 {
                bytes.truncate(random.below(bytes.len()));
            }
            read_all(&String::from_utf8_lossy(&bytes));
        }
    }
}

/// As much as is read at all, of what costs the most.
#[test]
fn the_largest_files_are_read_or_refused_soon() {
    let line = |i: usize| format!("<path d=\"M{} 0L{} 9\"/>", i * 20, i * 20 + 10);
    let open: String = (0..5000).map(line).collect();
    read_all(&format!("<svg width=\"9mm\" viewBox=\"0 0 9 9\">{open}</svg>"));
    let corner = |i: usize| format!("{} {} ", (i * 7919) % 1000, (i * 104_729) % 300);
    let points: String = (0..15_000).map(corner).collect();
    read_all(&format!("<svg width=\"1000mm\" viewBox=\"0 0 1000 300\"><polygon points=\"{points}\"/></svg>"));
    let rows: String = (0..400).map(|i| format!("{}\t{}\n", i * 2 - 400, 60 + (i * 37) % 40)).collect();
    read_all(&rows);
    read_all(&"<g>".repeat(100_000));
    read_all(&"0\nSECTION\n".repeat(100_000));
}
