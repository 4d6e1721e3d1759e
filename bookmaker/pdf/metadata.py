"""What a PDF says of itself, as its own facts and as XMP: nothing of the machine or its user."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from xml.sax.saxutils import escape

from pikepdf import Dictionary, Name, Pdf, Stream

PRODUCER = "bookmaker"


@dataclass(frozen=True, slots=True)
class Document:
    """What a PDF says of itself. ``date`` is None where the file shall carry no date."""

    title: str
    language: str
    author: str = ""
    date: datetime | None = None


def describe(pdf: Pdf, document: Document) -> None:
    """Write what ``document`` says into ``pdf``, and how it is to be shown and printed."""
    root = pdf.Root
    root.Lang = document.language
    root.PageLayout = Name.SinglePage
    root.PageMode = Name.UseOutlines
    root.ViewerPreferences = Dictionary(DisplayDocTitle=True, PrintScaling=Name("/None"))
    facts = {
        "/Title": document.title,
        "/Author": document.author,
        "/Producer": PRODUCER,
        "/Creator": PRODUCER,
        "/CreationDate": _pdf_date(document.date) if document.date else "",
    }
    told = {key: value for key, value in facts.items() if value}
    pdf.trailer.Info = pdf.make_indirect(Dictionary(told))
    packet = Stream(pdf, _xmp(document).encode(), Type=Name.Metadata, Subtype=Name.XML)
    root.Metadata = pdf.make_indirect(packet)


def _pdf_date(date: datetime) -> str:
    """ISO 32000-1, 7.9.4, in universal time."""
    return date.astimezone(UTC).strftime("D:%Y%m%d%H%M%SZ")


def _xmp(document: Document) -> str:
    """The packet that says the same, and that it keeps to PDF/UA-1 (ISO 14289-1, 5)."""
    title, language = escape(document.title), escape(document.language)
    author = f"<rdf:Seq><rdf:li>{escape(document.author)}</rdf:li></rdf:Seq>"
    date = document.date and document.date.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
    return (
        '<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>\n'
        '<x:xmpmeta xmlns:x="adobe:ns:meta/">'
        '<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">\n'
        '<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" '
        'xmlns:pdf="http://ns.adobe.com/pdf/1.3/" xmlns:xmp="http://ns.adobe.com/xap/1.0/" '
        'xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/">\n'
        "<pdfuaid:part>1</pdfuaid:part>\n"
        "<dc:format>application/pdf</dc:format>\n"
        f'<dc:title><rdf:Alt><rdf:li xml:lang="x-default">{title}</rdf:li></rdf:Alt></dc:title>\n'
        f"<dc:language><rdf:Bag><rdf:li>{language}</rdf:li></rdf:Bag></dc:language>\n"
        + (f"<dc:creator>{author}</dc:creator>\n" if document.author else "")
        + f"<pdf:Producer>{PRODUCER}</pdf:Producer>\n"
        f"<xmp:CreatorTool>{PRODUCER}</xmp:CreatorTool>\n"
        + (f"<xmp:CreateDate>{date}</xmp:CreateDate>\n" if date else "")
        + '</rdf:Description>\n</rdf:RDF></x:xmpmeta>\n<?xpacket end="r"?>'
    )
