//! The link: identity of the round trip, its length, its frozen layout, and every kind of damage.

use super::*;
use crate::{
    demo::{self, cubics},
    format::samples,
    layup::Layup,
    outline::{Outline, Sweep},
    quantities,
};

const ADDRESS: &str = "https://example.org/halfbreadth/#d=";

#[test]
fn a_link_brings_back_the_shared_part_of_every_design_to_the_bit() {
    for design in samples::decks() {
        let text = encode(&design);
        assert_eq!(decode(&text).as_ref(), Ok(&design.shared()), "{}", design.name());
        assert_eq!(encode(&design.shared()), text);
    }
}

#[test]
fn a_demo_deck_fits_into_a_chat_message() {
    for design in demo::all() {
        let length = ADDRESS.len() + encode(&design).len();
        assert!(length < 400, "{}: {length}", design.name());
    }
}

/// Links of version 1 as they were first released. They must open for ever; never change them.
#[test]
fn links_of_version_1_open_for_ever() {
    let released = [
        "AQlUdXJuc3RvbmUAAAoG-30HBd8fxeQJzMnUWQUHgyEHBecfhewJgqqiSgKDggEHpZkInPy6R4DilTDVhhGFxwuoufVOuJv4_QHlvAOvlFx5",
        "AQhXaGltYnJlbP8P1y8HxxaHAYNEg_gBg04HgyCDCIMgAA4G-4ABBwWt0yfnBdzkm4wMBa2gJcW0B7yCzP0CBf8dxcsJuLHbNwWHBYMiBwW3HaWECb72_d8BAoNvB8XAAeycsB3Yv7YalOe2GpSJklu8qsRkjO-7T-W4B6XgAfSs6owByOqixwHFvAIOy5_Q",
        "AQZEdW5saW57g2CHGYcBgzyD7AGDRgALBgfV9AgCxwuDHgaHFYMeBYce5egIuvn6mQECg3IHxaIDxaID5dYC9Pf4Ipza_8IBxfcCQPFQrQ",
    ];
    for (link, design) in released.into_iter().zip(cubics::all()) {
        assert_eq!(decode(link), Ok(design.clone()), "{}", encode(&design));
    }
}

#[test]
fn every_setting_is_in_the_link_with_the_default_it_was_released_with() {
    let in_link = v1::SETTINGS.map(|(key, _)| key);
    for setting in quantities::SETTINGS {
        let key = setting.quantity.key;
        assert!(in_link.contains(&key) || key == "ply-thickness", "{key} needs a new version of the link");
    }
    let usual = demo::turnstone();
    for (key, grains) in v1::SETTINGS {
        let setting = quantities::setting(key);
        let value = (setting.get)(usual.shape());
        assert_eq!(crate::units::stored(value, setting.quantity.unit), grains, "{key}");
    }
}

#[test]
fn a_link_is_found_in_an_address_a_fragment_and_alone() {
    let design = demo::whimbrel();
    let bare = encode(&design);
    let (first, second) = bare.split_at(70);
    let forms = [
        format!("{ADDRESS}{bare}"),
        format!("http://[::1]:8000/a=b/?x=1#d={bare}"),
        format!("#d={bare}"),
        format!("d={bare}"),
        format!("  {bare}\n"),
        format!("{ADDRESS}{first}\r\n {second}"),
        bare.clone(),
    ];
    for form in forms {
        assert_eq!(decode(&form).as_ref(), Ok(&design), "{form}");
    }
}

#[test]
fn every_change_of_one_character_is_noticed() {
    let link = encode(&demo::turnstone());
    let alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_+/=% é";
    for i in 0..link.len() {
        for with in alphabet.chars().filter(|c| !link[i..].starts_with(*c)) {
            let mut damaged = link.clone();
            damaged.replace_range(i..=i, with.encode_utf8(&mut [0; 4]));
            let expected = if matches!(with, '/' | '=') { LinkError::NoDesign } else { LinkError::Damaged };
            assert_eq!(decode(&damaged), Err(expected), "{i} {with}");
        }
    }
}

#[test]
fn a_link_cut_off_anywhere_is_refused() {
    let link = format!("#d={}", encode(&demo::turnstone()));
    for cut in 3..link.len() {
        let expected = if cut == 3 { LinkError::NoDesign } else { LinkError::Damaged };
        assert_eq!(decode(&link[..cut]), Err(expected), "{cut}");
        assert_eq!(decode(&format!("#d={}", &link[cut..])).is_ok(), cut == 3, "{cut}");
    }
}

/// A link with a true check over any bytes.
fn sealed(bytes: &[u8]) -> String {
    let mut sealed = bytes.to_vec();
    sealed.extend(crc32(bytes).to_le_bytes());
    Base64UrlUnpadded::encode_string(&sealed)
}

fn bytes_of(design: &Design) -> Vec<u8> {
    let mut bytes = Base64UrlUnpadded::decode_vec(&encode(design)).unwrap();
    bytes.truncate(bytes.len() - 4);
    bytes
}

#[test]
fn a_forged_link_is_refused_or_a_valid_design() {
    let mut opened = 0;
    for design in demo::all() {
        let bytes = bytes_of(&design);
        for i in 1..bytes.len() {
            for bit in 0..8 {
                let mut forged = bytes.clone();
                forged[i] ^= 1 << bit;
                if let Ok(design) = decode(&sealed(&forged)) {
                    assert_eq!(decode(&encode(&design)), Ok(design));
                    opened += 1;
                }
            }
            let cut = decode(&sealed(&bytes[..i]));
            assert_eq!(cut, Err(LinkError::Garbled), "{i}");
        }
    }
    assert!(opened > 300, "the forgeries reach beyond the layout: {opened}");
}

#[test]
fn bytes_behind_the_end_and_joints_without_a_tangent_are_garbled() {
    let mut longer = bytes_of(&demo::dunlin());
    longer.push(0);
    assert_eq!(decode(&sealed(&longer)), Err(LinkError::Garbled));
    // The node amidships of the first demo deck in cubics: smooth, 0 along, 264/64 in across, 0°; without that angle it is
    // led by nothing.
    let bytes = bytes_of(&cubics::turnstone());
    let node = bytes.windows(5).position(|w| w == [0x05, 0x07, 0x83, 0x21, 0x07]).unwrap();
    let leaderless = [&bytes[..node], &[0x06, 0x07, 0x83, 0x21], &bytes[node + 5..]].concat();
    assert_eq!(decode(&sealed(&leaderless)), Err(LinkError::Garbled));
}

#[test]
fn the_check_is_the_usual_crc_32() {
    // The check value of the catalogue of parametrised CRC algorithms, from memory.
    assert_eq!(crc32(b"123456789"), 0xCBF4_3926);
}

#[test]
fn the_longest_link_there_can_be_is_looked_at() {
    // A length on a board and an angle take at most five bytes, any other quantity six; a node has three of them and
    // its kinds, a span four, a leg six and its kind, a family three, and a name four a character.
    let outline = Outline::MOST_NODES * (1 + 3 * 5) + Outline::MOST_NODES * 4 * 5;
    let sweeps = Sweep::MOST * (1 + 4 * Sweep::LONGEST_NAME + 1 + 3 * 5) + Sweep::MOST_LEGS * (1 + 6 * 5);
    let rest = 5 + 2 + 4 * Design::LONGEST_NAME + 3 + (v1::SETTINGS.len() + 13) * 6 + 5;
    // Of the workshop: choices, the mould's name, which numbers and these, and the woods.
    let told = 1 + 2 + 4 * Design::LONGEST_NAME + 6 + 40 * 7 + 1 + *Layup::PLY_COUNT.end();
    let longest = (outline + sweeps + rest + told) * 4 / 3;
    assert!(longest + ADDRESS.len() < LONGEST, "{longest}");
    let mut bytes = Vec::new();
    bytes::put_grains(&mut bytes, 8_499_999_999);
    assert_eq!(bytes.len(), 5);
}

#[test]
fn only_sweeps_that_are_laid_travel_and_they_are_short() {
    let decks = samples::swept();
    for deck in &decks {
        let length = encode(deck).len();
        assert!(length < 450, "{length}");
    }
    let last = &decks[decks.len() - 1];
    assert_eq!((last.shape().outline.sweeps.len(), last.shared().shape().outline.sweeps.len()), (3, 1));
    assert_eq!(last.shared().shape().outline.resolve(), last.shape().outline.resolve());
}

#[test]
fn every_refusal_says_what_to_do() {
    let says = |text: &str| decode(text).unwrap_err().to_string();
    assert_eq!(says(&"A".repeat(9217)), "this link has 9217 characters: a deck's has at most 9216");
    let nothing = "this address carries no deck: a link to one has #d= and many characters at its end";
    assert_eq!(says("https://example.org/halfbreadth/"), nothing);
    assert_eq!(says("https://example.org/halfbreadth/#help"), says("hello"));
    assert_eq!(says(""), nothing);
    assert_eq!(
        says("hello"),
        "this link is damaged: characters were lost or changed on the way; copy all of it, or ask for it again",
    );
    assert_eq!(
        says(&sealed(&[3, 7, 7])),
        "this link was made by a newer version of the page (format 3, this one reads up to 2): reload the page to get \
         the newer version",
    );
    assert_eq!(says(&sealed(&[0])), "this link does not describe a deck: ask for a new one");
    assert_eq!(says(&sealed(&[])), says(&sealed(&[0])));

    // The tail tip of the first demo deck in cubics: led, a cubic after it, −1008/64 in along, 0 across; 5 mm across it is open.
    let mut bytes = bytes_of(&cubics::turnstone());
    let tip = bytes.windows(4).position(|w| w == [0x06, 0xfb, 0x7d, 0x07]).unwrap();
    bytes[tip + 3] = 0x57;
    assert_eq!(
        says(&sealed(&bytes)),
        "the deck in this link cannot be opened: the tip (node 1) lies 5.00 mm off the centreline: put it at 0 across, \
         or the halves stay open",
    );
}
