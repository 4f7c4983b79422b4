//! The sheet as files that other programs read: paper, title, tags, SVG, CSV.

use super::*;

#[test]
fn the_title_is_that_of_the_document() {
    let plan = plan_of(EXAMPLES[0].1);
    let bytes = printed(&plan);
    let document = Document::load_mem(&bytes).expect("a PDF that another reader opens");
    let info = document.trailer.get(b"Info").and_then(lopdf::Object::as_reference).expect("document information");
    let info = document.get_dictionary(info).expect("document information");
    let title = info.get(b"Title").and_then(lopdf::decode_text_string).expect("a title");
    assert_eq!(title, plan.title);
}

#[test]
fn paper_goes_with_the_units() {
    for (index, paper) in [(0, Paper::A4), (1, Paper::Letter)] {
        let want = paper.size_mm().map(|mm| mm / 25.4 * 72.0);
        let document = Document::load_mem(&printed(&plan_of(EXAMPLES[index].1))).expect("a PDF");
        let page = document.get_pages()[&1];
        let media = document.get_dictionary(page).and_then(|p| p.get(b"MediaBox")).expect("a size");
        let numbers: Vec<f64> = media
            .as_array()
            .expect("four numbers")
            .iter()
            .map(|n| f64::from(n.as_float().expect("a number")))
            .collect();
        for (got, want) in numbers[2..].iter().zip(want) {
            assert!((got - want).abs() < 0.1, "got {got}, want {want}, difference {} pt", got - want);
        }
    }
}

/// For looking at: `LOADCAIRN_SHEETS=FOLDER cargo test --workspace --test sheet both_papers`.
#[test]
fn both_papers_hold_every_mark_of_every_page() {
    for (name, text) in EXAMPLES {
        let plan = plan_of(text);
        let assessment = solved(&plan);
        for paper in [Paper::A4, Paper::Letter] {
            let pages = sheet::pages(&plan, &assessment, paper);
            if let Some(folder) = std::env::var_os("LOADCAIRN_SHEETS") {
                let path = std::path::Path::new(&folder).join(format!("{name}-{paper:?}.pdf"));
                std::fs::write(path, pdf::write(&pages, name).expect("a sheet prints")).expect("written");
            }
            for page in pages {
                let drawing = svg::write(std::slice::from_ref(&page));
                assert!(drawing.starts_with("<svg") && drawing.ends_with("</svg>\n"), "{name}: {paper:?}");
                let out = outermost(&page);
                assert!(out <= 0.0, "{name} {paper:?}: got a text {out:.2} mm outside the page, want 0 mm");
            }
        }
    }
}

#[test]
fn the_steps_as_csv_have_verdict_and_cautions_first_then_a_line_each_with_units_in_the_head() {
    for (name, text) in EXAMPLES {
        let plan = plan_of(text);
        let csv = sheet::csv(&plan, &solved(&plan));
        let (verdict, csv) = csv.split_once("\r\n").expect("a line of what it is");
        assert!(verdict.contains(plan::file::fingerprint(&plan).as_str()), "{name}: {verdict}");
        let fails = verdict.contains("DO NOT LOAD");
        assert_eq!(fails, name == "four-faults", "{name}: {verdict}");
        let (cautions, table) = csv.split_once("\r\n").expect("a line of cautions before the table");
        assert!(cautions.contains(CAUTION_LINE), "{name}: {cautions}");
        let mut reader = csv::Reader::from_reader(table.as_bytes());
        let head = reader.headers().expect("a head").clone();
        let unit = if plan.units == quantity::Units::Metric { "(kg)" } else { "(lb)" };
        assert!(head.iter().any(|h| h == format!("mass {unit}")), "{name}: {head:?}");
        let column = |what: &str| head.iter().position(|h| h.starts_with(what)).expect("the column");
        let (mass, applied) = (column("mass"), column("applied"));
        let mut sum = 0.0;
        let mut lines = 0;
        let mut records = reader.records();
        use quantity::Quantity;
        let tare = records.next().expect("a line").expect("a line of as many fields as the head");
        assert_eq!(&tare[0], "0", "{name}: the tare comes first");
        for (scale, kg) in scales(&plan, &solved(&plan), 0) {
            let told: f64 = tare[column(&format!("{scale} should read"))].parse().expect("a reading");
            let due = quantity::Mass::kg(kg).shown_bare(plan.units, quantity::Grain::Coarse);
            let due: f64 = due.parse().expect("a number");
            assert!((told - due).abs() < 0.051, "{name}, {scale}: got {told}, want {due} {unit}");
        }
        let (mut others, mut sum_of_steps_is_done) = (Vec::new(), false);
        for record in records {
            let record = record.expect("a line of as many fields as the head");
            sum_of_steps_is_done |= record[0].parse::<usize>().is_err();
            if sum_of_steps_is_done {
                others.push(record);
                continue;
            }
            sum += record[mass].parse::<f64>().expect("a mass");
            let told: f64 = record[applied].parse().expect("a mass");
            assert!(
                (told - sum).abs() < 0.02,
                "{name}: got {told}, want the sum {sum}, difference {} {unit}",
                told - sum
            );
            lines += 1;
        }
        assert_eq!(lines, plan.steps(), "{name}");
        let line = |what: &str| others.iter().filter(|record| &record[0] == what).collect::<Vec<_>>();
        for hold in &plan.holds {
            assert_eq!(line(&hold.name).len(), 1, "{name}: a line for the hold “{}”", hold.name);
        }
        let tape = if plan.units == quantity::Units::Metric { "(mm)" } else { "(in)" };
        assert!(line("gauge")[0].iter().any(|head| head == format!("allowed set {tape}")), "{name}: {others:?}");
        for gauge in &plan.gauges {
            assert_eq!(line(&gauge.name).len(), 1, "{name}: a line for the gauge “{}”", gauge.name);
        }
        let off = others.iter().skip_while(|record| &record[0] != "off").skip(1).count();
        let want: usize = plan.runs().iter().map(|run| run.placements(&plan)).sum();
        assert_eq!(off, want, "{name}: a line for each piece that comes off");
    }
}

/// By the PDF standard (source key `iso-32000`): a tagged document says so, has a structure, bookmarks and a language.
#[test]
fn the_document_is_tagged_with_heads_tables_and_drawings_in_words() {
    let plan = plan_of(EXAMPLES[0].1);
    let document = Document::load_mem(&printed(&plan)).expect("a PDF that another reader opens");
    let catalog = document.catalog().expect("a catalog");
    for key in ["StructTreeRoot", "MarkInfo", "Outlines", "Lang"] {
        assert!(catalog.has(key.as_bytes()), "no {key} in the catalog");
    }
    let of_kind = |kind: &str| {
        let dictionaries = document.objects.values().filter_map(|object| object.as_dict().ok());
        let is_kind = |dict: &&lopdf::Dictionary| {
            dict.get(b"S").and_then(lopdf::Object::as_name).is_ok_and(|s| s == kind.as_bytes())
        };
        dictionaries.filter(is_kind).collect::<Vec<_>>()
    };
    let layers = solved(&plan).closed.pile.layer.iter().copied().max().expect("layers");
    assert!(of_kind("Table").len() > layers, "a table for each layer and more");
    assert!(of_kind("TH").len() > of_kind("Table").len(), "heads of columns");
    let drawings = of_kind("Figure");
    assert!(drawings.len() > 2 * layers, "two drawings a layer and more, got {}", drawings.len());
    assert!(drawings.iter().all(|drawing| drawing.has(b"Alt")), "each drawing is told in words");
    let titles: Vec<String> = document
        .objects
        .values()
        .filter_map(|object| object.as_dict().ok().filter(|dict| dict.has(b"Dest") || dict.has(b"A")))
        .filter_map(|dict| dict.get(b"Title").and_then(lopdf::decode_text_string).ok())
        .collect();
    for due in ["Stacking sheet", "Layer 1 of 9", "Layer 9 of 9", "Emergency", "Engineer's annex"] {
        assert_eq!(titles.iter().filter(|title| *title == due).count(), 1, "a bookmark {due:?} in {titles:?}");
    }
}

/// The XML reader is not ours; it is no viewer: that a viewer shows the page alike was looked at by eye.
#[test]
fn each_page_is_an_svg_document_that_another_reader_reads_to_its_end() {
    use quick_xml::events::Event;
    let plan = plan_of(EXAMPLES[0].1);
    let assessment = solved(&plan);
    let documents = sheet::svg(&plan, &assessment);
    assert_eq!(documents.len(), sheet::pages(&plan, &assessment, Paper::A4).len(), "a document a page");
    for (index, text) in documents.iter().enumerate() {
        let mut reader = quick_xml::Reader::from_str(text);
        let (mut words, mut depth) = (String::new(), 0_i32);
        loop {
            match reader.read_event().unwrap_or_else(|e| panic!("page {}: {e}", index + 1)) {
                Event::Start(_) => depth += 1,
                Event::End(_) => depth -= 1,
                Event::Text(part) => words.push_str(&String::from_utf8_lossy(&part)),
                Event::Eof => break,
                _ => {}
            }
        }
        assert_eq!(depth, 0, "page {}: an element is not closed", index + 1);
        assert!(words.contains(&format!("page {} of {}", index + 1, documents.len())), "page {}: {words}", index + 1);
    }
}

/// For looking at: `LOADCAIRN_SHEETS=folder` keeps them there.
#[test]
fn a_sheet_has_no_more_pages_than_its_rows_need() {
    let most = [22, 27, 21];
    let mut got = Vec::new();
    for (name, text) in EXAMPLES {
        let plan = plan_of(text);
        let bytes = printed(&plan);
        if let Some(folder) = std::env::var_os("LOADCAIRN_SHEETS") {
            std::fs::write(std::path::Path::new(&folder).join(format!("{name}.pdf")), &bytes).expect("written");
        }
        got.push(texts(&bytes).len());
    }
    assert!(got.iter().zip(most).all(|(got, most)| *got <= most), "got {got:?} pages, want {most:?} or fewer");
}
