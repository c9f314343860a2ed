#include "app/book/customer_book.h"

#include <QCoreApplication>

namespace rodway {
namespace {

struct BookTitles {
    Q_DECLARE_TR_FUNCTIONS(CustomerBook)
};

/// Sections that begin on a page of their own if anything is in them: long ones, and what is taken
/// out by itself.
bool begins_a_page(BookSection section) {
    switch (section) {
        case BookSection::glance:
        case BookSection::variants:
        case BookSection::parts:
        case BookSection::account:
        case BookSection::changes:
        case BookSection::cautions:
        case BookSection::glossary:
        case BookSection::signatures:
        case BookSection::history:
            return false;
        default:
            return true;
    }
}

void add(BookBlocks& blocks, BookBlocks more) {
    for (BookBlock& block : more) {
        blocks.push_back(std::move(block));
    }
}

void add_standing(BookBlocks& blocks, const std::vector<std::string>& paragraphs) {
    for (const std::string& one : paragraphs) {
        blocks.push_back(words::paragraph(printable(one)));
    }
}

/// One section with its heading; empty if it is to be left out.
BookBlocks blocks_of(const TemplateSection& section, const words::BookSource& source) {
    const QString heading = section.heading.empty() ? words::book_section_title(section.section)
                                                    : printable(section.heading);
    BookBlocks blocks;
    if (section.section == BookSection::cover) { // has its heading among its own words
        add(blocks, words::book_cover(source, heading));
    } else {
        BookBlocks recorded = words::book_section(section.section, source);
        if (recorded.empty() && section.leave_out_empty) {
            return {};
        }
        if (begins_a_page(section.section) && !recorded.empty()) {
            blocks.push_back(BookPageBreak{});
        } else {
            blocks.push_back(BookSpace{14.0});
        }
        blocks.push_back(BookHeading{heading, 1});
        add_standing(blocks, section.before);
        const std::string own = source.facts->shop_detail(own_words_name(section.section));
        if (!own.empty()) {
            blocks.push_back(words::paragraph(printable(own)));
        }
        if (recorded.empty()) {
            blocks.push_back(words::paragraph(words::book_section_empty(section.section)));
        }
        add(blocks, std::move(recorded));
    }
    add_standing(blocks, section.after);
    return blocks;
}

} // namespace

std::string own_words_name(BookSection section) {
    return "book_" + std::string(book_section_word(section));
}

CustomerBook customer_book(const BookTemplate& pattern, words::BookSource source,
                           QPageSize::PageSizeId size) {
    const BookFacts& facts = *source.facts;
    const QString name = printable(facts.build().name);
    const QString title = printable(pattern.title);
    BookPaper paper;
    paper.size = size;
    paper.head =
        BookTitles::tr("%1: %2 for %3").arg(title, name, printable(facts.build().customer));
    paper.foot = printable(facts.shop_detail("name"));
    paper.bare_first =
        !pattern.sections.empty() && pattern.sections.front().section == BookSection::cover;
    source.width = text_width(paper);
    BookBlocks blocks;
    for (const TemplateSection& section : pattern.sections) {
        add(blocks, blocks_of(section, source));
    }
    return {BookLayout(blocks, paper),
            {BookTitles::tr("%1: %2").arg(title, name), printable(facts.shop_detail("name"))}};
}

} // namespace rodway
