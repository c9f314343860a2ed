#include <QComboBox>
#include <QFileDialog>
#include <QLabel>
#include <QLineEdit>

#include "app/book/book_templates.h"
#include "app/handoff/book_page.h"
#include "app/valvetrain/work_bar.h"
#include "app/words/error_text.h"
#include "app/work/output_file.h"
#include "app/work/templates_folder.h"

// What the Book place writes: files and the customer's folder, on another thread, so that the
// window lives meanwhile. The layout is made there, too: text that was laid out by one thread isn't
// painted by another.

namespace rodway {
namespace {

/// Nothing is written of a book that was stopped: false.
Result<bool> write_pdf(const HandOverFacts& facts, const HandOverWish& wish, const QString& file,
                       const PageProgress& progress, const std::stop_token& stop) {
    const CustomerBook book =
        customer_book(wish.pattern, {facts.facts, facts.pictures, 0.0}, wish.paper);
    const auto pdf = book_pdf(book.layout, book.title, progress, stop);
    if (!pdf) {
        return pdf.error();
    }
    if (!*pdf || stop.stop_requested()) {
        return false;
    }
    const auto written = write_output(file, **pdf);
    return written ? Result<bool>(true) : Result<bool>(written.error());
}

} // namespace

std::function<void(int, int)> BookPage::Writing::progress() const {
    return [part = part](int done, int of) { *part = static_cast<double>(done) / of; };
}

void BookPage::ask_book_file(const QString& template_word) {
    const QString name = QFileInfo(template_word).completeBaseName();
    const QString file = QFileDialog::getSaveFileName(this, tr("Write the book"),
                                                      tr("%1.pdf").arg(name), tr("PDF (*.pdf)"));
    if (!file.isEmpty()) write_book(template_word, file);
}

void BookPage::ask_folder() {
    const QString folder = QFileDialog::getSaveFileName(this, tr("Folder to make for the customer"),
                                                        tr("for-the-customer"), {}, nullptr,
                                                        QFileDialog::DontConfirmOverwrite);
    if (!folder.isEmpty()) hand_over_to(folder);
}

void BookPage::ask_templates() {
    if (session_ == nullptr) {
        return;
    }
    const QString folder = QFileDialog::getExistingDirectory(
        this, tr("Folder of the shop's own templates"), templates_folder_of(session_->shop()));
    if (!folder.isEmpty()) use_templates_in(folder);
}

void BookPage::use_templates_in(const QString& folder) {
    if (session_ == nullptr) {
        return;
    }
    const std::size_t found = own_templates(folder).size();
    const auto kept = keep_templates_folder(*session_, folder);
    if (!kept) {
        if (!is_waiting(kept.error())) emit failed(words::error_text(kept.error()));
        return;
    }
    emit said(found == 0
                  ? tr("There is no template in %1 yet: a text file whose name ends in .txt. "
                       "The guide says how one is written.")
                        .arg(folder)
                  : tr("Templates in %1: %2.").arg(folder).arg(found));
}

void BookPage::begin_writing(const QString& template_word, const QString& target,
                             std::function<void(const Writing&, HandOverFacts)> write) {
    if (session_ == nullptr || build_id_ == 0 || is_writing_) {
        return;
    }
    const auto pattern = find_book_template(template_word);
    if (!pattern) {
        emit failed(words::error_in_file(template_word, pattern.error()));
        return;
    }
    stop_writing_ = std::stop_source();
    const Writing writing{{typed_words(), typed(*signature_), *pattern, paper()},
                          target,
                          stop_writing_,
                          std::make_shared<std::atomic<double>>(0.0)};
    is_writing_ = true;
    enable_writers();
    work_->begin([part = writing.part] { return part->load(); });
    reader_.ask<HandOverFacts>(
        [build = build_id_, words = writing.wish.words](ShopFile& shop) {
            return read_for_hand_over(shop, build, words);
        },
        [this, writing, write = std::move(write)](Result<HandOverFacts> read) {
            if (!read) {
                end_writing();
                emit failed(words::error_text(read.error()));
                return;
            }
            HandOverFacts facts = std::move(read).value();
            facts.pictures = pictures_of(*facts.facts);
            write(writing, std::move(facts));
        });
}

void BookPage::end_writing() {
    is_writing_ = false;
    work_->end();
    enable_writers();
}

void BookPage::write_book(const QString& template_word, const QString& file) {
    begin_writing(template_word, file, [this](const Writing& writing, const HandOverFacts& facts) {
        write_file(writing, facts);
    });
}

void BookPage::write_file(const Writing& writing, const HandOverFacts& facts) {
    writing_.ask<Result<bool>>(
        [writing, facts](const std::stop_token&) {
            return write_pdf(facts, writing.wish, writing.target, writing.progress(),
                             writing.stop.get_token());
        },
        [this, writing](const Result<bool>& written) { take_written(writing, written); });
}

void BookPage::take_written(const Writing& writing, const Result<bool>& written) {
    end_writing();
    if (!written) {
        emit failed(words::error_in_file(writing.target, written.error()));
    } else if (!*written) {
        emit said(tr("Stopped. Nothing was written."));
    } else {
        emit said(tr("Wrote %1.").arg(writing.target));
    }
}

void BookPage::hand_over_to(const QString& folder) {
    begin_writing(template_->currentData().toString(), folder,
                  [this](const Writing& writing, const HandOverFacts& facts) {
                      write_folder(writing, facts);
                  });
}

void BookPage::write_folder(const Writing& writing, const HandOverFacts& facts) {
    // Handed through a pointer: a filled folder can't be copied.
    using Filled = std::shared_ptr<Result<std::optional<FilledFolder>>>;
    writing_.ask<Filled>(
        [writing, facts](const std::stop_token&) {
            return std::make_shared<Result<std::optional<FilledFolder>>>(fill_folder(
                facts, writing.wish, writing.target, writing.progress(), writing.stop.get_token()));
        },
        [this, writing, facts](const Filled& filled) {
            take_folder(writing, facts, std::move(*filled));
        });
}

void BookPage::take_folder(const Writing& writing, const HandOverFacts& facts,
                           Result<std::optional<FilledFolder>> filled) {
    if (!filled) {
        end_writing();
        emit failed(words::error_in_file(writing.target, filled.error()));
        return;
    }
    auto whole = std::make_shared<std::optional<FilledFolder>>(std::move(filled).value());
    if (!*whole || writing.stop.stop_requested()) {
        end_writing();
        emit said(tr("Stopped. Nothing was handed over."));
        return;
    }
    reader_.ask<FilledFolder>(
        [whole](ShopFile& shop) -> Result<FilledFolder> {
            if (const auto kept = keep_book(shop, **whole); !kept) return kept.error();
            return std::move(**whole);
        },
        [this, writing, facts](Result<FilledFolder> kept) {
            finish_folder(writing, facts, std::move(kept));
        });
}

void BookPage::finish_folder(const Writing& writing, const HandOverFacts& facts,
                             Result<FilledFolder> kept) {
    end_writing();
    if (!kept) {
        emit failed(words::error_in_file(writing.target, kept.error()));
        return;
    }
    if (writing.stop.stop_requested()) {
        emit said(tr("Stopped. Nothing was handed over."));
        return;
    }
    const auto done = finish_hand_over(*session_, facts, writing.wish, std::move(kept).value());
    if (done) {
        emit said(
            tr("Handed over as number %1: %2.").arg(QString::number(done->version), done->folder));
        QStringList rods;
        for (const MissingFact& fact : done->rods) {
            rods << words::rods_not_passed(fact);
        }
        if (!rods.isEmpty()) {
            emit failed(tr("Handed over all the same: %1").arg(rods.join(' ')));
        }
    } else if (is_waiting(done.error())) {
        emit said(tr("The folder is whole: %1. That it was handed over is still to be kept.")
                      .arg(writing.target));
    } else {
        emit failed(words::error_in_file(writing.target, done.error()));
    }
}

} // namespace rodway
