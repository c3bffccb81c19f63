use super::*;

/// A catalogue of a few pairs.
fn speak_german() {
    let json = r#"{
      ".": ",",
      "Nose": "Nose (vorn)",
      "line {line}: {fault}": "Zeile {line} und {line}: {fault}",
      "small": "klein",
      "{found} is too {passed}": "zu {passed}: {found}"
    }"#;
    speak(Some(Catalogue::read("de", json).unwrap()));
}

#[test]
fn holes_change_places_and_words_in_them_are_looked_up() {
    let passed = "small";
    assert_eq!(say!("{found} is too {passed}", found = -3, passed), "-3 is too small");
    speak_german();
    assert_eq!(say!("{found} is too {passed}", found = -3, passed), "zu klein: -3");
}

#[test]
fn what_is_said_already_is_not_looked_up_again() {
    speak_german();
    let fault = "small".to_owned();
    assert_eq!(say!("line {line}: {fault}", line = 20, fault), "Zeile 20 und 20: small");
    assert_eq!(say!("line {line}: {fault}", line = 0, fault = Own("Nose")), "Zeile 0 und 0: Nose");
    assert_eq!(missed(), [""; 0]);
}

#[test]
fn what_a_catalogue_does_not_have_stays_english_and_is_noted_once() {
    speak_german();
    assert_eq!([said("Tail"), said("Tail"), said("Nose")], ["Tail", "Tail", "Nose (vorn)"]);
    assert_eq!(missed(), ["Tail"]);
}

#[test]
fn figures_have_the_mark_of_the_language() {
    assert_eq!(figure("1.5".to_owned()), "1.5");
    speak_german();
    assert_eq!(figure("1.5".to_owned()), "1,5");
    assert_eq!(figure("8 1/4".to_owned()), "8 1/4");
}

#[test]
fn english_is_spoken_while_it_is_held() {
    speak_german();
    {
        let _files = English::only();
        assert_eq!((said("Nose"), code()), ("Nose", "en"));
    }
    assert_eq!((said("Nose"), code()), ("Nose (vorn)", "de"));
}

#[test]
fn labels_are_small_within_an_english_sentence_only() {
    assert_eq!(within("Nose"), "nose");
    speak_german();
    assert_eq!(within("Nose"), "Nose (vorn)");
}

#[test]
fn the_largest_numbers_are_said_in_full() {
    assert_eq!(
        say!("{most} {least}", most = u64::MAX, least = i64::MIN),
        "18446744073709551615 -9223372036854775808"
    );
}

#[test]
fn what_is_no_catalogue_is_refused_or_left_out() {
    assert!(Catalogue::read("xx", "{").is_err());
    let odd = Catalogue::read("xx", r#"{"a": "1", "b": 2, "c": "3"}"#).unwrap();
    assert_eq!(odd.pairs().collect::<Vec<_>>(), [("a", "1"), ("c", "3")]);
}
