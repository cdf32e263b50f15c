//! Tables as one spreadsheet (Office Open XML, ECMA-376): a zip archive with a part in XML for each sheet. What is written is a small
//! and old part of the format, which every program reads. A crate made for it would bring a second zip and another decompressor.

use std::io::{self, Cursor, Write};

use quick_xml::escape::escape;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

use super::{Cell, Column, Table};
use crate::output::one_line;

/// What a program may put into a sheet and into a cell.
const ROWS: usize = 1_048_576;
const COLUMNS: usize = 16_384;
const LETTERS: usize = 32_767;

const DECLARATION: &str = "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?>\n";
const MAIN: &str = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const RELATIONS: &str = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE: &str = "http://schemas.openxmlformats.org/package/2006";
const TYPE: &str = "application/vnd.openxmlformats-officedocument.spreadsheetml";

/// The formats of cells, by their places in `STYLES`.
const HEADING: usize = 1;
const TURNED_HEADING: usize = 2;
const PERCENT: usize = 3;
const COUNT: usize = 4;

const STYLES: &str = "<numFmts count=\"2\"><numFmt numFmtId=\"164\" formatCode=\"0.0\"/><numFmt numFmtId=\"165\" formatCode=\"0;-0;;@\"/></numFmts>\
<fonts count=\"2\"><font><sz val=\"11\"/><name val=\"Calibri\"/></font><font><b/><sz val=\"11\"/><name val=\"Calibri\"/></font></fonts>\
<fills count=\"3\"><fill><patternFill patternType=\"none\"/></fill><fill><patternFill patternType=\"gray125\"/></fill>\
<fill><patternFill patternType=\"solid\"><fgColor rgb=\"FFF4F0E8\"/><bgColor indexed=\"64\"/></patternFill></fill></fills>\
<borders count=\"1\"><border><left/><right/><top/><bottom/><diagonal/></border></borders>\
<cellStyleXfs count=\"1\"><xf numFmtId=\"0\" fontId=\"0\" fillId=\"0\" borderId=\"0\"/></cellStyleXfs>\
<cellXfs count=\"5\"><xf numFmtId=\"0\" fontId=\"0\" fillId=\"0\" borderId=\"0\" xfId=\"0\"/>\
<xf numFmtId=\"0\" fontId=\"1\" fillId=\"2\" borderId=\"0\" xfId=\"0\" applyFont=\"1\" applyFill=\"1\" applyAlignment=\"1\"><alignment vertical=\"bottom\" wrapText=\"1\"/></xf>\
<xf numFmtId=\"0\" fontId=\"1\" fillId=\"2\" borderId=\"0\" xfId=\"0\" applyFont=\"1\" applyFill=\"1\" applyAlignment=\"1\"><alignment horizontal=\"center\" vertical=\"bottom\" textRotation=\"90\"/></xf>\
<xf numFmtId=\"164\" fontId=\"0\" fillId=\"0\" borderId=\"0\" xfId=\"0\" applyNumberFormat=\"1\"/>\
<xf numFmtId=\"165\" fontId=\"0\" fillId=\"0\" borderId=\"0\" xfId=\"0\" applyNumberFormat=\"1\"/></cellXfs>\
<cellStyles count=\"1\"><cellStyle name=\"Normal\" xfId=\"0\" builtinId=\"0\"/></cellStyles>";

/// Writes tables as sheets of one file. The first row and the first column of each stay in sight.
pub(crate) fn workbook(tables: Vec<Table<'_>>) -> io::Result<Vec<u8>> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    let part = |zip: &mut ZipWriter<Cursor<Vec<u8>>>, name: &str, body: &str| -> io::Result<()> {
        start(zip, name)?;
        zip.write_all(DECLARATION.as_bytes())?;
        zip.write_all(body.as_bytes())
    };
    let numbers = 1..=tables.len();
    let overrides: String = numbers
        .clone()
        .map(|n| format!("<Override PartName=\"/xl/worksheets/sheet{n}.xml\" ContentType=\"{TYPE}.worksheet+xml\"/>"))
        .collect();
    part(
        &mut zip,
        "[Content_Types].xml",
        &format!(
            "<Types xmlns=\"{PACKAGE}/content-types\">\
             <Default Extension=\"rels\" ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/>\
             <Default Extension=\"xml\" ContentType=\"application/xml\"/>\
             <Override PartName=\"/xl/workbook.xml\" ContentType=\"{TYPE}.sheet.main+xml\"/>\
             <Override PartName=\"/xl/styles.xml\" ContentType=\"{TYPE}.styles+xml\"/>{overrides}</Types>"
        ),
    )?;
    let relation = |id: usize, kind: &str, target: &str| {
        format!("<Relationship Id=\"rId{id}\" Type=\"{RELATIONS}/{kind}\" Target=\"{target}\"/>")
    };
    let relations = |all: String| format!("<Relationships xmlns=\"{PACKAGE}/relationships\">{all}</Relationships>");
    part(&mut zip, "_rels/.rels", &relations(relation(1, "officeDocument", "xl/workbook.xml")))?;
    let mut sheets: String =
        numbers.clone().map(|n| relation(n, "worksheet", &format!("worksheets/sheet{n}.xml"))).collect();
    sheets += &relation(tables.len() + 1, "styles", "styles.xml");
    part(&mut zip, "xl/_rels/workbook.xml.rels", &relations(sheets))?;
    let named: String = numbers
        .clone()
        .zip(&tables)
        .map(|(n, table)| format!("<sheet name=\"{}\" sheetId=\"{n}\" r:id=\"rId{n}\"/>", text(table.name)))
        .collect();
    // The first row comes again on each printed page.
    let again: String = (0..)
        .zip(&tables)
        .map(|(at, table)| {
            let name = text(table.name);
            format!("<definedName name=\"_xlnm.Print_Titles\" localSheetId=\"{at}\">'{name}'!$1:$1</definedName>")
        })
        .collect();
    let body = format!(
        "<workbook xmlns=\"{MAIN}\" xmlns:r=\"{RELATIONS}\"><sheets>{named}</sheets><definedNames>{again}</definedNames></workbook>"
    );
    part(&mut zip, "xl/workbook.xml", &body)?;
    part(&mut zip, "xl/styles.xml", &format!("<styleSheet xmlns=\"{MAIN}\">{STYLES}</styleSheet>"))?;
    for (number, table) in (1..).zip(tables) {
        start(&mut zip, &format!("xl/worksheets/sheet{number}.xml"))?;
        // The archive is written in few large pieces.
        let mut out = io::BufWriter::with_capacity(1 << 16, &mut zip);
        sheet(&mut out, table, number == 1)?;
        out.flush()?;
    }
    Ok(zip.finish()?.into_inner())
}

fn start(zip: &mut ZipWriter<Cursor<Vec<u8>>>, name: &str) -> io::Result<()> {
    // No time: the same tables make the same file.
    let options = SimpleFileOptions::default().compression_method(CompressionMethod::Deflated);
    Ok(zip.start_file(name, options)?)
}

fn sheet(out: &mut impl Write, table: Table<'_>, is_first: bool) -> io::Result<()> {
    let Table { mut columns, rows, .. } = table;
    columns.truncate(COLUMNS);
    let counts = columns.iter().any(|column| column.count);
    let selected = if is_first { " tabSelected=\"1\"" } else { "" };
    write!(
        out,
        "{DECLARATION}<worksheet xmlns=\"{MAIN}\"><sheetPr><pageSetUpPr fitToPage=\"1\"/></sheetPr><sheetViews><sheetView{selected} workbookViewId=\"0\">\
         <pane xSplit=\"1\" ySplit=\"1\" topLeftCell=\"B2\" activePane=\"bottomRight\" state=\"frozen\"/>\
         </sheetView></sheetViews><cols>"
    )?;
    for (n, Column { width, .. }) in (1..).zip(&columns) {
        write!(out, "<col min=\"{n}\" max=\"{n}\" width=\"{width}\" customWidth=\"1\"/>")?;
    }
    // In points: names of columns in four lines, or turned.
    let height = if counts { 170 } else { 64 };
    write!(out, "</cols><sheetData><row r=\"1\" ht=\"{height}\" customHeight=\"1\">")?;
    for (at, column) in columns.iter().enumerate() {
        let style = if column.count { TURNED_HEADING } else { HEADING };
        inline(out, at, 1, style, &heading(&column.name))?;
    }
    write!(out, "</row>")?;
    let mut last = 1;
    for (row, cells) in (2..=ROWS).zip(rows) {
        write!(out, "<row r=\"{row}\">")?;
        for (at, (cell, column)) in cells.iter().zip(&columns).enumerate() {
            let style = if column.count { COUNT } else { 0 };
            match cell {
                Cell::Empty | Cell::Percent(None) => {}
                Cell::Text(text) => inline(out, at, row, 0, text)?,
                Cell::Id(id) => match cell.id_as_number() {
                    Some(number) => write!(out, "<c r=\"{}{row}\"><v>{number}</v></c>", letters(at))?,
                    None => inline(out, at, row, 0, id)?,
                },
                Cell::Number(number) => {
                    write!(out, "<c r=\"{}{row}\" s=\"{style}\"><v>{number}</v></c>", letters(at))?;
                }
                Cell::Percent(_) => {
                    write!(out, "<c r=\"{}{row}\" s=\"{PERCENT}\"><v>{}</v></c>", letters(at), cell.text())?;
                }
            }
        }
        write!(out, "</row>")?;
        last = row;
    }
    write!(out, "</sheetData>")?;
    let right = letters(columns.len().saturating_sub(1));
    write!(out, "<autoFilter ref=\"A1:{right}{last}\"/>")?;
    if let (Some(first), true) = (columns.iter().position(|column| column.count), last > 1) {
        write!(
            out,
            "<conditionalFormatting sqref=\"{}2:{right}{last}\"><cfRule type=\"colorScale\" priority=\"1\"><colorScale>\
             <cfvo type=\"num\" val=\"0\"/><cfvo type=\"num\" val=\"10\"/><color rgb=\"FFFFFFFF\"/><color rgb=\"FFD3C8B4\"/>\
             </colorScale></cfRule></conditionalFormatting>",
            letters(first)
        )?;
    }
    // Tables of counts are too wide for one page.
    let across = if counts { 3 } else { 1 };
    write!(out, "<pageSetup orientation=\"landscape\" fitToWidth=\"{across}\" fitToHeight=\"0\"/></worksheet>")
}

/// A cell with a text, which no program takes for a formula.
fn inline(out: &mut impl Write, column: usize, row: usize, style: usize, written: &str) -> io::Result<()> {
    let column = letters(column);
    let written = text(written);
    write!(
        out,
        "<c r=\"{column}{row}\" s=\"{style}\" t=\"inlineStr\"><is><t xml:space=\"preserve\">{written}</t></is></c>"
    )
}

/// A text as XML may have it.
fn text(text: &str) -> String {
    let harmless = one_line(text).replace(['\u{fffe}', '\u{ffff}'], "\u{fffd}");
    match harmless.char_indices().nth(LETTERS) {
        Some((end, _)) => escape(&harmless[..end]).into_owned(),
        None => escape(&harmless).into_owned(),
    }
}

/// `first_readable` as people write it; the name of a pattern stays as it is.
fn heading(name: &str) -> String {
    if name.contains('(') {
        return name.to_owned();
    }
    let mut letters = name.chars();
    let first = letters.next().map(|letter| letter.to_ascii_uppercase());
    first.into_iter().chain(letters).map(|letter| if letter == '_' { ' ' } else { letter }).collect()
}

/// The name of a column: A to Z, then AA.
fn letters(column: usize) -> String {
    let last = char::from(b'A' + (column % 26) as u8);
    match column / 26 {
        0 => last.to_string(),
        before => letters(before - 1) + &last.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_have_the_names_of_spreadsheets() {
        assert_eq!(
            [0, 25, 26, 51, 52, 701, 702, 16_383].map(letters),
            ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA", "XFD"]
        );
        assert_eq!([heading("first_readable"), heading("s (lesson 1)")], ["First readable", "s (lesson 1)"]);
        assert_eq!(text("a<b & \u{1b}\u{ffff}"), "a&lt;b &amp; \\u{1b}\u{fffd}");
    }
}
