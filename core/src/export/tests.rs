use super::*;
use crate::{demo, paper::Paper};

fn export(part: Part) -> Export {
    Export { part, ..Export::default() }
}

fn made(export: &Export) -> Made {
    export.make(&demo::turnstone(), System::default()).unwrap()
}

#[test]
fn the_usual_export_is_the_deck_as_before_under_its_bare_name() {
    let made = made(&Export::default());
    let deck = demo::turnstone();
    for (kind, name, text) in
        [(Kind::Svg, "turnstone.svg", svg::export(&deck)), (Kind::Dxf, "turnstone.dxf", dxf::export(&deck))]
    {
        let file = made.file(kind).unwrap();
        assert_eq!((file.name.as_str(), file.bytes.as_slice()), (name, text.as_bytes()));
        assert_eq!(file.entities, 15, "an outline, eight holes, three lines, a blank and two texts");
    }
    assert_eq!(made.file(Kind::Csv).unwrap_err().field(), "part");
}

#[test]
fn every_part_leaves_in_every_kind_it_has_under_a_name_that_says_it() {
    for part in Part::ALL {
        for projection in [Projection::Developed, Projection::Plan] {
            let mut export = export(part);
            export.template.projection = projection;
            let made = made(&export);
            for kind in Kind::ALL {
                let has_table = matches!(part, Part::Offsets | Part::MarkOut);
                let Ok(file) = made.file(kind) else {
                    let is_paper = part == Part::Sheet;
                    assert!(
                        kind != Kind::Pdf && is_paper || kind == Kind::Csv && !has_table,
                        "{part:?} {kind:?}"
                    );
                    continue;
                };
                assert!(file.entities > 0 && !file.bytes.is_empty());
                let plain = part == Part::Deck && projection == Projection::Developed || part == Part::Sheet;
                assert_eq!(file.name.contains(&format!("{}-{}", part.key(), projection.key())), !plain);
                assert!(file.name.starts_with("turnstone") && file.name.ends_with(kind.key()));
                let text = String::from_utf8_lossy(&file.bytes);
                assert!(kind == Kind::Pdf || text.contains(projection.word()), "{}", file.name);
            }
        }
    }
}

#[test]
fn the_usual_half_template_lies_4_825_mm_inside() {
    let made = made(&export(Part::HalfTemplate));
    assert_eq!(made.remark, "The template’s edge lies 4.83 mm inside of the outline.");
    let Some(crate::format::drawing::Entity::Chain(edge)) = made.drawing.layers[0].entities.first() else {
        panic!("a template is a chain")
    };
    let extent = crate::arcs::extent(edge).unwrap();
    assert!((extent.width() - (812.8 - 9.65)).abs() < 0.01, "{extent:?}");
    assert!((extent.y1 - (209.55 / 2.0 - 4.825)).abs() < 0.01, "{extent:?}");
}

#[test]
fn what_does_not_go_together_names_the_field_to_change() {
    let check = |change: fn(&mut Export), field: &str| {
        let mut export = export(Part::HalfTemplate);
        change(&mut export);
        let error = export.make(&demo::turnstone(), System::default()).unwrap_err();
        assert_eq!(error.field(), field, "{error}");
    };
    check(|e| e.template.bushing = 6.0, "bushing");
    check(|e| (e.dxf.release, e.dxf.curves) = (dxf::Release::R12, dxf::Curves::Splines), "curves");
}

#[test]
fn every_choice_and_length_comes_back_from_what_a_browser_keeps() {
    let mut changed = Export::default();
    for choice in &CHOICES {
        choice.set(&mut changed, choice.options.last().unwrap().0).unwrap();
    }
    for length in lengths() {
        length.set(&mut changed, length.most).unwrap();
        assert_eq!(length.get(&changed), length.most);
    }
    assert_eq!(Export::resumed(&changed.kept()), changed);
    assert_eq!(Export::default().kept(), "");
    // What older and newer pages kept, and what is damaged, is passed over.
    assert_eq!(
        Export::resumed("inches comb bit=9999 part=moon colour=red bit= =7 drill=x"),
        Export::default()
    );
}

#[test]
fn a_sheet_and_a_roll_of_ones_own_have_fields_and_keep_their_size() {
    let mut export = Export::default();
    let choose = |export: &mut Export, word: &str| Choice::named("paper").unwrap().set(export, word).unwrap();
    let set = |export: &mut Export, key: &str, mm: f64| Length::named(key).unwrap().set(export, mm).unwrap();
    assert!(!export.uses("paper-width"));
    choose(&mut export, "custom");
    set(&mut export, "paper-width", 610.0);
    set(&mut export, "paper-height", 305.5);
    assert_eq!(export.paper.paper, Paper::Custom(610.0, 305.5));
    assert!(export.uses("paper-width") && export.uses("paper-height"));
    choose(&mut export, "roll");
    // As wide as one with a name, and still one's own.
    assert_eq!(
        (export.paper.paper, Choice::named("paper").unwrap().get(&export)),
        (Paper::Roll(610.0), "roll")
    );
    assert!(export.uses("paper-width") && !export.uses("paper-height"));
    set(&mut export, "paper-width", 500.0);
    assert_eq!(export.paper.paper, Paper::Roll(500.0));
    assert_eq!(Export::resumed(&export.kept()), export);
    choose(&mut export, "a3");
    assert_eq!((export.paper.paper, export.own), (Paper::A3, [500.0, 305.5]));
    choose(&mut export, "one-page");
    assert!(!export.uses("overlap") && made(&export).file(Kind::Pdf).unwrap().pages == 1);
}

#[test]
fn a_name_that_pages_cannot_write_becomes_its_picture_or_the_short_code() {
    let deck = demo::turnstone().renamed("千鳥").unwrap();
    let made = export(Part::HalfTemplate).make(&deck, System::default()).unwrap();
    assert!(made.wants_picture());
    let text = |file: &File| file.bytes.iter().map(|byte| char::from(*byte)).collect::<String>();
    let link = link::encode(&deck);
    let code: String = link[link.len() - 6..].bytes().map(|byte| format!("{byte:02X}")).collect();
    let coded = text(&made.file(Kind::Pdf).unwrap());
    let title = "/Title <FEFF53439CE5>";
    assert!(coded.contains(&code) && coded.contains(title) && !coded.contains("/Image"));
    let picture = Picture::new(16, 8, vec![0x55; 16]).unwrap();
    let drawn = Made { picture: Some(picture), ..made };
    assert!(!drawn.wants_picture());
    let file = text(&drawn.file(Kind::Pdf).unwrap());
    assert!(file.contains("/Subtype/Image/Width 16/Height 8/ImageMask true") && file.contains(title));
    assert!(!file.contains(&code), "the picture stands for the code");
    // A name in letters that pages have needs no picture.
    let plain = export(Part::Deck).make(&demo::turnstone(), System::default()).unwrap();
    assert!(!plain.wants_picture());
    assert_eq!(Picture::new(16, 8, vec![0; 16]), None, "a picture without ink is none");
    assert_eq!(Picture::new(16, 8, vec![1; 15]), None);
    assert_eq!(Picture::new(0, 8, Vec::new()), None);
}

#[test]
fn tables_leave_with_their_figure_and_a_line_for_every_row() {
    for (part, pages) in [(Part::Offsets, 2), (Part::MarkOut, 2)] {
        for system in
            [System::default(), System::Inches { denominator: crate::units::Denominator::ThirtySeconds }]
        {
            let made = export(part).make(&demo::turnstone(), system).unwrap();
            let (pdf, csv) = (made.file(Kind::Pdf).unwrap(), made.file(Kind::Csv).unwrap());
            assert_eq!((pdf.entities, made.list.len()), (csv.entities, csv.entities));
            assert!(pdf.pages >= pages, "{part:?}: {} pages", pdf.pages);
            assert!(made.tiling().is_none());
        }
    }
}

#[test]
fn keys_are_told_apart_and_limits_hold() {
    let mut keys: Vec<&str> = CHOICES.iter().map(|choice| choice.key).collect();
    keys.extend(lengths().map(|length| length.quantity.key));
    keys.sort_unstable();
    let all = keys.len();
    keys.dedup();
    assert_eq!(keys.len(), all);
    let mut export = Export::default();
    for length in lengths() {
        for mm in [length.least - 0.1, length.most + 0.1, f64::NAN, f64::INFINITY] {
            let refused = length.set(&mut export, mm).unwrap_err();
            assert_eq!(refused.field(), length.quantity.key);
        }
    }
    let refused = Choice::named("part").unwrap().set(&mut export, "moon").unwrap_err().to_string();
    assert!(refused.starts_with("Part has no “moon”: use deck, template, "), "{refused}");
    assert_eq!(export, Export::default());
}
