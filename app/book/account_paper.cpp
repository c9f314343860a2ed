#include "app/book/account_paper.h"

#include <QBuffer>
#include <QCoreApplication>
#include <QPainter>
#include <QPdfWriter>
#include <QRegularExpression>

#include "app/words/account_words.h"
#include "app/work/output_file.h"

namespace rodway {
namespace {

struct Paper {
    Q_DECLARE_TR_FUNCTIONS(AccountPaper)
};

constexpr double amount_width = 130.0; ///< 1/96 in, as all sizes here
constexpr double foot = 24.0;          ///< kept free at the end of a page

/// One thing on the paper. With an amount it is a row of the account.
struct Piece {
    enum class Look { title, heading, words, small, row, sum };
    Look look = Look::words;
    QString text;
    QString amount = {};
};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

QString detail(const AccountDocument& document, const std::string& name) {
    for (const ShopDetail& one : document.shop) {
        if (one.name == name) {
            return text(one.content);
        }
    }
    return {};
}

class Pieces {
  public:
    explicit Pieces(const AccountDocument& document)
        : document_(document), currency_(text(document.currency)) {}

    std::vector<Piece> take() {
        add_head();
        document_.paper == AccountPaper::estimate ? add_estimate() : add_invoice();
        add_answers(ApprovalAnswer::declined, Paper::tr("What was declined"));
        add_answers(ApprovalAnswer::asked, Paper::tr("What isn't answered yet"));
        add_foot();
        return std::move(pieces_);
    }

  private:
    using Look = Piece::Look;

    void add(Look look, const QString& words, const QString& amount = {}) {
        if (!words.isEmpty()) {
            pieces_.push_back({look, words, amount});
        }
    }
    [[nodiscard]] QString money(Money amount) const { return words::money(amount, currency_); }

    void add_head() {
        add(Look::title, detail(document_, "name"));
        for (const char* name : {"address", "phone", "email", "web", "tax_number"}) {
            add(Look::small, detail(document_, name));
        }
        const Build& build = document_.build;
        add(Look::title, document_.paper == AccountPaper::estimate
                             ? Paper::tr("Estimate, %1").arg(text(document_.day))
                             : Paper::tr("Invoice, %1").arg(text(document_.day)));
        const QString customer =
            document_.customer ? text(document_.customer->name) : text(build.customer);
        add(Look::words, customer.isEmpty() ? QString() : Paper::tr("For %1").arg(customer));
        if (document_.customer && document_.customer->address) {
            add(Look::words, text(*document_.customer->address));
        }
        add(Look::words, build.engine.empty()
                             ? text(build.name)
                             : Paper::tr("%1: %2").arg(text(build.name), text(build.engine)));
        if (build.job_number) {
            add(Look::words, Paper::tr("Job %1").arg(text(*build.job_number)));
        }
        if (build.scope) {
            add(Look::words, Paper::tr("To be done: %1").arg(text(*build.scope)));
        }
        if (build.exclusions) {
            add(Look::words, Paper::tr("Not part of it: %1").arg(text(*build.exclusions)));
        }
    }

    void add_lines(AccountPaper paper) {
        for (const AccountLine& line : lines_of(document_.records.lines, paper)) {
            add(Look::row, text(line.text) + approval_of(line),
                words::money(line.amount, currency_));
        }
    }

    /// " (approved 2026-11-20 by Ada, by letter)" behind an extra's line.
    [[nodiscard]] QString approval_of(const AccountLine& line) const {
        for (const Approval& approval : document_.records.approvals) {
            if (line.approval_id == approval.id) {
                return Paper::tr(" (%1)").arg(words::answer_line(approval));
            }
        }
        return {};
    }

    void add_estimate() {
        add(Look::heading, Paper::tr("Estimate"));
        add_lines(AccountPaper::estimate);
        add(Look::sum, Paper::tr("Together"), money(document_.state.estimate));
        add(Look::words,
            Paper::tr("This is an estimate. What comes up beside it is asked about before it is "
                      "done."));
        if (document_.state.deposit != Money{}) {
            add(Look::row, Paper::tr("Deposit received"), money(document_.state.deposit));
        }
    }

    void add_invoice() {
        const AccountState& state = document_.state;
        add(Look::heading, Paper::tr("Invoice"));
        add_lines(AccountPaper::invoice);
        add(Look::sum, Paper::tr("Together"), money(state.invoice));
        for (const AccountLine& line : lines_of(document_.records.lines, AccountPaper::deposit)) {
            const auto amount = recorded_money(line.amount);
            const QString what =
                line.dated
                    ? Paper::tr("less deposit, %1: %2").arg(text(*line.dated), text(line.text))
                    : Paper::tr("less deposit: %1").arg(text(line.text));
            add(Look::row, what, amount ? money(-*amount) : text(line.amount));
        }
        state.to_pay < Money{} ? add(Look::sum, Paper::tr("To be given back"), money(-state.to_pay))
                               : add(Look::sum, Paper::tr("To be paid"), money(state.to_pay));
    }

    void add_answers(ApprovalAnswer answer, const QString& heading) {
        bool first = true;
        for (std::size_t at = 0; at < document_.records.approvals.size(); ++at) {
            const Approval& one = document_.records.approvals[at];
            if (one.answer != answer) {
                continue;
            }
            if (first) {
                add(Look::heading, heading);
                first = false;
            }
            const auto& amount = document_.state.extras[at].amount;
            add(Look::row, Paper::tr("%1: %2").arg(text(one.subject), words::answer_line(one)),
                amount ? money(*amount) : Paper::tr("not known"));
        }
    }

    void add_foot() {
        if (document_.build.terms) {
            add(Look::words, Paper::tr("Terms: %1").arg(text(*document_.build.terms)));
        }
        add(Look::small, Paper::tr("This lists what was agreed. Taxes are not reckoned here."));
    }

    const AccountDocument& document_;
    QString currency_;
    std::vector<Piece> pieces_;
};

double size_of(Piece::Look look) {
    switch (look) {
        case Piece::Look::title:
            return 14.0;
        case Piece::Look::heading:
        case Piece::Look::sum:
            return 11.0;
        case Piece::Look::words:
        case Piece::Look::row:
            return 10.0;
        case Piece::Look::small:
            return 8.5;
    }
    return 10.0;
}

QFont font_of(Piece::Look look) {
    QFont font(QStringLiteral("DejaVu Sans"));
    font.setPixelSize(qRound(size_of(look) * 96.0 / 72.0));
    font.setBold(look == Piece::Look::title || look == Piece::Look::heading ||
                 look == Piece::Look::sum);
    return font;
}

/// Between words, unless one is wider than the page.
int wrapping(const QFontMetricsF& metrics, const QString& words, double width) {
    for (const QString& word : words.split(QRegularExpression("\\s+"))) {
        if (metrics.horizontalAdvance(word) > width) {
            return Qt::TextWrapAnywhere;
        }
    }
    return Qt::TextWordWrap;
}

/// Pieces down the page, a new page when one doesn't fit.
class Flow {
  public:
    explicit Flow(QPdfWriter& device) : device_(device), painter_(&device) {
        const double scale = device.logicalDpiX() / 96.0;
        painter_.scale(scale, scale);
        area_ = QRectF(0, 0, device.width() / scale, device.height() / scale);
        y_ = area_.top();
    }

    void put(const Piece& piece) {
        const QFont font = font_of(piece.look);
        const QFontMetricsF metrics(font);
        const double width = area_.width() - (piece.amount.isEmpty() ? 0.0 : amount_width);
        const int wrap = wrapping(metrics, piece.text, width);
        const double height =
            metrics.boundingRect(QRectF(0, 0, width, 1e5), wrap, piece.text).height();
        const bool spaced = piece.look == Piece::Look::title || piece.look == Piece::Look::heading;
        const double before = spaced && y_ > area_.top() ? 12.0 : 0.0;
        // A heading doesn't stand alone at the foot.
        const double wanted = height + before + (spaced ? 40.0 : 0.0) + foot;
        if (y_ + wanted > area_.bottom() && y_ > area_.top()) {
            device_.newPage();
            y_ = area_.top();
        } else {
            y_ += before;
        }
        painter_.setFont(font);
        painter_.setPen(Qt::black);
        if (piece.look == Piece::Look::sum) {
            painter_.drawLine(QPointF(area_.left(), y_), QPointF(area_.right(), y_));
            y_ += 3.0;
        }
        painter_.drawText(QRectF(area_.left(), y_, width, height), wrap, piece.text);
        if (!piece.amount.isEmpty()) {
            painter_.drawText(QRectF(area_.right() - amount_width, y_, amount_width, height),
                              Qt::AlignRight | Qt::AlignBottom, piece.amount);
        }
        y_ += height + (piece.look == Piece::Look::small ? 1.0 : 5.0);
    }

  private:
    QPdfWriter& device_;
    QPainter painter_;
    QRectF area_;
    double y_ = 0.0;
};

} // namespace

QStringList account_paper_text(const AccountDocument& document) {
    QStringList lines;
    for (const Piece& piece : Pieces(document).take()) {
        lines << (piece.amount.isEmpty() ? piece.text : piece.text + '\t' + piece.amount);
    }
    return lines;
}

Result<Done> write_account_paper(const AccountDocument& document, const QString& path) {
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    {
        QPdfWriter writer(&buffer);
        writer.setPageSize(QPageSize(QPageSize::A4));
        writer.setPageMargins(QMarginsF(18, 16, 18, 16), QPageLayout::Millimeter);
        writer.setResolution(384);
        writer.setTitle(Paper::tr("%1: %2").arg(words::account_paper(document.paper),
                                                text(document.build.name)));
        writer.setCreator("Rodway");
        Flow flow(writer);
        for (const Piece& piece : Pieces(document).take()) {
            flow.put(piece);
        }
    }
    return write_output(path, bytes);
}

} // namespace rodway
