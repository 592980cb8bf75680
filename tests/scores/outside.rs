//! The outside of a file: encodings, packing, and what is no score.

use crate::{
    POLONAISE_1,
    texts::{heard, note, score},
};
use std::io::{Cursor, Write};
use tailfirst::music::musicxml::{LARGEST_FILE, LARGEST_TEXT, ReadError, read};
use zip::{ZipWriter, write::SimpleFileOptions};

#[test]
fn any_usual_encoding_gives_the_same_score() {
    let text = score(&[&note("C4", 12, "")]).replace(">Piano<", ">Flügel<");
    let expected = heard(&text);
    assert_eq!(expected.score.parts[0].name, "Flügel");
    let units = || text.encode_utf16();
    let little: Vec<u8> = [0xFF, 0xFE].into_iter().chain(units().flat_map(u16::to_le_bytes)).collect();
    let big: Vec<u8> = [0xFE, 0xFF].into_iter().chain(units().flat_map(u16::to_be_bytes)).collect();
    let unmarked: Vec<u8> = units().flat_map(u16::to_le_bytes).collect();
    let marked = format!("\u{feff}{text}").into_bytes();
    let declared = format!("<?xml version='1.0' encoding='ISO-8859-1'?>{text}");
    let latin: Vec<u8> = declared.chars().map(|letter| letter as u8).collect();
    for bytes in [little, big, unmarked, marked, latin] {
        assert_eq!(read(&bytes).as_ref(), Ok(&expected));
    }
}

fn packed(entries: &[(&str, &[u8])]) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, content) in entries {
        zip.start_file(*name, SimpleFileOptions::default()).expect("an entry");
        zip.write_all(content).expect("written");
    }
    zip.finish().expect("a zip").into_inner()
}

#[test]
fn a_packed_score_is_found_by_its_container_or_guessed() {
    let (good, other) = (score(&[&note("C4", 12, "")]), score(&[&note("D4", 12, "")]));
    let container = b"<container><rootfiles><rootfile full-path='b.xml'/></rootfiles></container>";
    let (good, other) = (good.as_bytes(), other.as_bytes());
    let named = packed(&[("META-INF/container.xml", container), ("a.xml", other), ("b.xml", good)]);
    assert_eq!(read(&named), read(good));
    let guessed = packed(&[("notes.txt", b"hello"), ("score.musicxml", good)]);
    assert_eq!(read(&guessed), read(good));
    assert_eq!(read(&packed(&[("notes.txt", b"hello")])), Err(ReadError::NoScoreInZip));
}

#[test]
fn odd_roots_of_packed_scores_are_followed() {
    let text = score(&[&note("C4", 12, "")]);
    let expected = Ok(heard(&text));
    let container = |root: &str| format!("<container><rootfiles>{root}</rootfiles></container>");
    let utf16: Vec<u8> = text.encode_utf16().flat_map(u16::to_le_bytes).collect();
    let roots = [
        "<rootfile full-path='./deep/in/here.xml'/>",
        "<rootfile full-path='deep\\in\\here.xml'/>",
        "<rootfile full-path='cover.pdf'/><rootfile full-path='deep/in/here.xml'/>",
        "<rootfile full-path='cover.pdf' media-type='application/pdf'/>",
        "<rootfile full-path='nowhere.xml'/>",
        "",
    ];
    for root in roots {
        let container = container(root);
        let entries: [(&str, &[u8]); 4] = [
            ("META-INF/container.xml", container.as_bytes()),
            ("cover.pdf", b"%PDF"),
            ("settings.xml", b"<settings/>"),
            ("deep/in/here.xml", text.as_bytes()),
        ];
        assert_eq!(read(&packed(&entries)), expected, "{root}");
    }
    assert_eq!(read(&packed(&[("a.xml", &utf16)])), expected);
}

#[test]
fn files_of_every_version_begin_in_their_own_way() {
    let text = score(&[&note("C4", 12, "")]);
    let (declared, expected) = ("<?xml version='1.0' encoding='UTF-8' standalone='no'?>", heard(&text));
    let partwise = |identifier: &str| format!("{declared}<!DOCTYPE score-partwise {identifier}>{text}");
    let public = |version: &str| {
        let name = format!("-//Recordare//DTD MusicXML {version} Partwise//EN");
        partwise(&format!("PUBLIC \"{name}\" \"http://www.musicxml.org/dtds/partwise.dtd\""))
    };
    let versions = ["1.0", "1.1", "2.0", "3.0", "3.1", "4.0"].map(public);
    let others = [
        partwise("SYSTEM 'partwise.dtd'"),
        format!("{declared}<!-- from a scan -->\n{text}"),
        format!("\n  {declared}{text}"),
        text.replace("<score-partwise", "<score-partwise xmlns='http://www.musicxml.org/ns'"),
    ];
    for file in versions.iter().chain(&others) {
        assert_eq!(heard(file), expected, "{file}");
    }
}

#[test]
fn a_zip_bomb_is_not_unpacked_beyond_the_limit() {
    let bomb = packed(&[("score.xml", &vec![b' '; LARGEST_TEXT + 1])]);
    assert!(bomb.len() < LARGEST_TEXT / 500);
    assert_eq!(read(&bomb), Err(ReadError::UnpackedTooLarge));
    assert_eq!(read(&vec![b' '; LARGEST_FILE + 1]), Err(ReadError::FileTooLarge));
}

#[test]
fn entities_that_grow_and_crowded_elements_are_refused_at_once() {
    let laughs = format!("<!DOCTYPE a [\n<!ENTITY a 'ha'>\n<!ENTITY b '&a;&a;'>]>{}", score(&[&note("C4", 12, "")]));
    assert_eq!(read(laughs.as_bytes()), Err(ReadError::OwnEntities { line: 2 }));
    let crowd: String = (0..100_000).map(|index| format!(" a{index}=''")).collect();
    assert_eq!(read(format!("<score-partwise{crowd}/>").as_bytes()), Err(ReadError::NotAScore));
    let nested = "<score-partwise>".to_owned() + &"<a>".repeat(1_000_000);
    assert!(matches!(read(nested.as_bytes()), Err(ReadError::DamagedXml { .. })));
}

#[test]
fn what_is_no_score_is_refused_with_the_place_and_what_to_do() {
    let said = |bytes: &[u8]| read(bytes).expect_err("no score").to_string();
    assert_eq!(said(b" \n"), "The file is empty; export the score again and choose the new file.");
    assert!(said(b"a letter to a friend").starts_with("This is not a MusicXML score"));
    assert!(said(b"<html><body/></html>").starts_with("This is not a MusicXML score"));
    assert!(said(b"<\xE9\xFF>").contains("export the score as MusicXML in UTF-8"));
    let damaged = score(&[&note("C4", 12, "")]).replacen("</note>", "\n</nope>", 1);
    assert_eq!(
        said(damaged.as_bytes()),
        "The score is damaged at line 2; export it again from the program that wrote it."
    );
    assert!(said(&POLONAISE_1[..POLONAISE_1.len() / 2]).starts_with("The packed file is damaged"));
    let silent = score(&["<note><rest/><duration>12</duration></note>"]);
    assert_eq!(read(silent.as_bytes()), Err(ReadError::NoNotes));
}

/// The first bytes are those that each format's specification gives (ISO 32000, RFC 1952, PNG, JPEG, GIF, TIFF, WebP,
/// HEIF, Standard MIDI Files).
#[test]
fn files_of_other_kinds_are_named_for_what_they_are() {
    let said = |begin: &[u8]| {
        let bytes = [begin, b"\0\0\0\0 and more"].concat();
        read(&bytes).expect_err("no score").to_string()
    };
    assert!(said(b"%PDF-1.7").starts_with("This is a PDF"));
    assert!(said(b"MThd\0\0\0\x06").starts_with("This is a MIDI file"));
    assert!(said(b"\x1F\x8B\x08").starts_with("This file is packed with gzip"));
    let pictures: [&[u8]; 7] = [
        b"\x89PNG\r\n\x1A\n",
        b"\xFF\xD8\xFF\xE0",
        b"GIF89a",
        b"II*\0",
        b"MM\0*",
        b"RIFF\x10\0\0\0WEBP",
        b"\0\0\0\x18ftypheic",
    ];
    for picture in pictures {
        assert!(said(picture).starts_with("This is a picture"), "{picture:?}");
    }
}

/// The Encoding Standard (WHATWG): windows-1252 by either label.
#[test]
fn windows_1252_quotes_and_dashes_are_read() {
    for label in ["windows-1252", "ISO-8859-1"] {
        let text = score(&[&note("C4", 12, "")]).replace(">Piano<", ">@Fl\u{FC}gel# $ 4%<");
        let declared = format!("<?xml version='1.0' encoding='{label}'?>{text}");
        let byte = |letter: char| match letter {
            '@' => 0x93,
            '#' => 0x94,
            '$' => 0x96,
            '%' => 0x80,
            other => other as u8,
        };
        let bytes: Vec<u8> = declared.chars().map(byte).collect();
        assert_eq!(read(&bytes).expect("a score").score.parts[0].name, "“Flügel” – 4€");
    }
}
