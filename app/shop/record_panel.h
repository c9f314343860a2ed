#pragma once

#include <QWidget>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/edit_stack/shop_session.h"
#include "app/shop/panel_kind.h"

class QFormLayout;
class QHBoxLayout;
class QLabel;
class QPushButton;
class QTableWidget;

namespace rodway {

/// The text that is typed in a panel's box, whatever kind of box it is.
class PanelBox : public QObject {
    Q_OBJECT

  public:
    PanelBox(const PanelField& field, QWidget* parent);

    [[nodiscard]] QWidget* widget() const { return widget_; }
    [[nodiscard]] QString text() const;
    void set_text(const QString& text);
    void set_choices(const QStringList& words);

  signals:
    void typed();
    /// Done with: Enter, or the focus went elsewhere.
    void done();
    void entered();

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    QWidget* widget_;
    bool setting_ = false;
};

/// The shop's records of one kind: a table of them, and a form for the one selected. Each box is
/// kept by itself, as one act, as soon as it is done with; what can't be kept stays as typed, with
/// the reason under it. A new record is added when its button or the last box's Enter says so.
class RecordPanel : public QWidget {
    Q_OBJECT

  public:
    explicit RecordPanel(PanelKind kind, QWidget* parent = nullptr);
    ~RecordPanel() override;

    void take(ShopSession* session);
    void refresh();
    [[nodiscard]] RecordKind kind() const { return kind_.kind; }
    /// The record in the form; 0 while it takes a new one.
    [[nodiscard]] std::int64_t current() const { return current_; }
    /// False if there is none.
    bool go_to(std::int64_t id);
    void begin_new();
    /// As if it had been typed into the field's box.
    void fill(const std::string& field, const QString& text);
    /// A button of the panel's own, beside those that every panel has; enabled while a record is
    /// selected.
    QPushButton* add_button(const QString& text);
    [[nodiscard]] const RecordRows& rows() const { return rows_; }

  signals:
    void failed(const QString& text);
    void said(const QString& text);
    void current_changed();

  private:
    /// Typed and not kept.
    struct Draft {
        QString text;
        std::optional<std::string> before; ///< what was stored when the typing began
        QString trouble;
    };
    struct Line {
        PanelField field;
        PanelBox* box;
        QLabel* trouble;
    };
    using Drafts = std::map<std::string, Draft>;

    /// By the session's clock.
    [[nodiscard]] std::string today() const;
    QWidget* make_list();
    QWidget* make_form();
    void fill_table();
    void fill_form();
    void show_troubles();
    void typed(Line& line);
    void entered(std::size_t which);
    /// False if it was refused and stays.
    bool keep(Line& line);
    void add();
    void remove();
    [[nodiscard]] Result<std::optional<std::string>> read(const PanelField& field,
                                                          const QString& typed);
    [[nodiscard]] QString shown(const PanelField& field, const FieldTexts& fields);
    /// What a record is called by: its first field, as shown.
    [[nodiscard]] QString called(const FieldTexts& fields);
    [[nodiscard]] const FieldTexts& stored() const;
    /// What is refused in what would be kept; nothing if it is well.
    [[nodiscard]] std::optional<PanelRefusal> check(FieldTexts& after, std::int64_t id);
    void refuse(const PanelRefusal& refusal);
    [[nodiscard]] bool told(const Error& error, const std::string& field);

    PanelKind kind_;
    ShopSession* session_ = nullptr;
    RecordRows rows_;
    std::int64_t current_ = 0;
    std::map<std::int64_t, Drafts> drafts_;
    std::map<std::string, Choices> choices_;
    std::vector<Line> lines_;
    bool filling_ = false;
    QLabel* empty_;
    QTableWidget* table_;
    QLabel* heading_;
    QPushButton* add_;
    QPushButton* new_;
    QPushButton* remove_;
    QHBoxLayout* buttons_;
    std::vector<QPushButton*> of_current_;
};

} // namespace rodway
