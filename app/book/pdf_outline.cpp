#include "app/book/pdf_outline.h"

#define POINTERHOLDER_TRANSITION 4 // qpdf: without its pointers of before C++11
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFWriter.hh>

namespace rodway {
namespace {

using Object = QPDFObjectHandle;

Object text_object(const QString& text) {
    return Object::newUnicodeString(text.toStdString());
}

/// The open item at each level while the outline grows; 0 is the outline itself.
struct Branch {
    Object item;
    Object last;
    int children = 0;
};

Object destination(const std::vector<QPDFPageObjectHelper>& pages, const BookOutlineEntry& entry,
                   double page_height) {
    Object there = Object::newArray();
    there.appendItem(pages[static_cast<std::size_t>(entry.page)].getObjectHandle());
    there.appendItem(Object::newName("/XYZ"));
    there.appendItem(Object::newNull());
    // Upwards from the page's foot, in points.
    there.appendItem(Object::newReal((page_height - entry.y) * 72.0 / 96.0, 1));
    there.appendItem(Object::newNull());
    return there;
}

void close(std::vector<Branch>& branches) {
    const Branch done = branches.back();
    branches.pop_back();
    if (done.children > 0) {
        Object item = done.item;
        item.replaceKey("/Last", done.last);
        // Less than 0: its own lines are folded until somebody opens them.
        item.replaceKey("/Count",
                        Object::newInteger(branches.empty() ? done.children : -done.children));
    }
}

void add_outline(QPDF& pdf, const BookLayout& layout) {
    const auto pages = QPDFPageDocumentHelper(pdf).getAllPages();
    Object root = pdf.makeIndirectObject(Object::newDictionary());
    root.replaceKey("/Type", Object::newName("/Outlines"));
    std::vector<Branch> branches{{root, {}, 0}};
    for (const BookOutlineEntry& entry : layout.outline()) {
        while (static_cast<int>(branches.size()) > entry.level) {
            close(branches);
        }
        Branch& parent = branches.back();
        Object item = pdf.makeIndirectObject(Object::newDictionary());
        item.replaceKey("/Title", text_object(entry.title));
        item.replaceKey("/Parent", parent.item);
        item.replaceKey("/Dest", destination(pages, entry, layout.page_size().height()));
        if (parent.children == 0) {
            parent.item.replaceKey("/First", item);
        } else {
            parent.last.replaceKey("/Next", item);
            item.replaceKey("/Prev", parent.last);
        }
        parent.last = item;
        ++parent.children;
        branches.push_back({item, {}, 0});
    }
    while (!branches.empty()) {
        close(branches);
    }
    if (!layout.outline().empty()) {
        pdf.getRoot().replaceKey("/Outlines", root);
        pdf.getRoot().replaceKey("/PageMode", Object::newName("/UseOutlines"));
    }
}

void add_title(QPDF& pdf, const PdfTitle& title) {
    Object shown = Object::newDictionary();
    shown.replaceKey("/DisplayDocTitle", Object::newBool(true));
    pdf.getRoot().replaceKey("/ViewerPreferences", shown);
    Object info = pdf.getTrailer().getKey("/Info");
    if (info.isDictionary() && !title.author.isEmpty()) {
        info.replaceKey("/Author", text_object(title.author));
    }
}

} // namespace

Result<QByteArray> with_outline(const QByteArray& bytes, const BookLayout& layout,
                                const PdfTitle& title) {
    try {
        QPDF pdf;
        pdf.processMemoryFile("book", bytes.constData(), static_cast<std::size_t>(bytes.size()));
        add_outline(pdf, layout);
        add_title(pdf, title);
        QPDFWriter writer(pdf);
        writer.setOutputMemory();
        writer.setObjectStreamMode(qpdf_o_generate);
        writer.write();
        const auto out = writer.getBufferSharedPointer();
        return QByteArray(reinterpret_cast<const char*>(out->getBuffer()),
                          static_cast<qsizetype>(out->getSize()));
    } catch (const std::exception& wrong) {
        return Error{ErrorCode::cannot_write, "pdf", wrong.what(), {}, {}, {}};
    }
}

} // namespace rodway
