//! JSON of all kinds read and written, and text that is none.

use super::*;

#[track_caller]
fn reads(text: &str) -> Value {
    Value::read(text, 8).unwrap_or_else(|error| panic!("{error}: {text}"))
}

#[test]
fn whatever_is_written_on_one_line_comes_back_to_the_letter() {
    for text in [
        "null",
        "true",
        "[]",
        "{}",
        "\"\"",
        r#"{"a":[1,-2.50,1e400,{"b":false}],"":"漢字 🛹 \"\\\n\r\t\u0000\u001f/"}"#,
        r#"{"twice":1,"twice":2}"#,
    ] {
        assert_eq!(reads(text).to_string(), text);
    }
}

#[test]
fn indented_text_has_an_entry_a_line() {
    let text = "{\n  \"a\": [\n    1,\n    {}\n  ],\n  \"b\": []\n}";
    assert_eq!(format!("{:#}", reads(text)), text);
}

#[test]
fn space_and_escapes_mean_what_they_say() {
    assert_eq!(reads(" [\t1 ,\r\n2 ] "), reads("[1,2]"));
    assert_eq!(reads(r#""\u00e9\ud83d\udef9\/\b\f""#), Value::from("é🛹/\u{8}\u{c}"));
}

#[test]
fn of_two_entries_with_one_key_the_first_counts() {
    assert_eq!(reads(r#"{"a":1,"a":2}"#).get("a").and_then(Value::as_whole), Some(1));
}

#[test]
fn the_first_fault_is_named_with_its_place() {
    let fault = |text: &str| Value::read(text, 3).unwrap_err().to_string();
    assert_eq!(fault("{\"format\":"), "a value is missing in line 1 at character 11");
    assert_eq!(fault("[1,\n \"é\" 2]"), ", is missing in line 2 at character 6");
    assert_eq!(fault("{a}"), "\" is missing in line 1 at character 2");
    assert_eq!(fault("\"\n\""), "\" is missing in line 2 at character 1");
    assert_eq!(fault("\"\\x\""), "a character is missing in line 1 at character 4");
    assert_eq!(fault("[[[[]]]]"), "an end to the nesting is missing in line 1 at character 4");
    assert_eq!(fault("1 2"), "the end is missing in line 1 at character 3");
}

#[test]
fn text_that_is_no_json_is_refused() {
    for text in [
        "",
        "nul",
        "[1,]",
        "[,1]",
        "[1",
        "{\"a\"}",
        "{\"a\":1,}",
        "{1:2}",
        "'a'",
        "\"a",
        "\"\\",
        "\"\\u12\"",
        "\"\\ud800\"",
        "\"\\ud800\\u0041\"",
        "\"\\udc00\"",
        "\"\t\"",
        "01",
        "-",
        "+1",
        ".5",
        "1.",
        "1e",
        "1e+",
        "1.e3",
        "--1",
        "1-2",
        "NaN",
        "0x1",
        "[1]]",
    ] {
        assert!(Value::read(text, 8).is_err(), "{text}");
    }
}

#[test]
fn a_number_is_whole_however_it_is_written() {
    let whole = |text: &str| Number::new(text).unwrap().whole();
    for text in ["1200", "1200.0", "1.2e3", "12E+2", "120000e-2", "1200.000e0"] {
        assert_eq!(whole(text), Some(1200), "{text}");
    }
    for text in ["0", "-0", "0.0", "0e99", "-0.00e-99999999999999999999"] {
        assert_eq!(whole(text), Some(0), "{text}");
    }
    for text in ["1.5", "-1e-1", "12e-1", "1e-99999999999999999999", "1000000000000000000.1"] {
        assert_eq!(whole(text), None, "{text}");
    }
    assert_eq!(whole("-9223372036854775808"), Some(i64::MIN));
    for text in ["9223372036854775807", "9223372036854775808", "1e300", "1e99999999999999999999"] {
        assert_eq!(whole(text), Some(i64::MAX), "{text}");
    }
    assert_eq!(whole("-1e19"), Some(i64::MIN));
}
