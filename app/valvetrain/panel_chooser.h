#pragma once

#include <QWidget>
#include <vector>

class QButtonGroup;
class QGridLayout;
class QStackedWidget;

namespace rodway {

/// Several panels of which one is seen, and a button for each above them. Which one a person had in
/// front last is remembered.
class PanelChooser : public QWidget {
    Q_OBJECT

  public:
    explicit PanelChooser(QWidget* parent = nullptr);

    /// `word` is the panel's name in the settings; it never changes. `name` may have a mnemonic.
    void add(const char* word, const QString& name, QWidget* panel);
    /// From now on this person's choice: the one they had last, else the first.
    void set_who(const QString& who);
    void show_panel(const QString& word);
    [[nodiscard]] QString shown() const;

  private:
    void chosen(int at);
    [[nodiscard]] QString key() const;

    QGridLayout* grid_;
    QButtonGroup* buttons_;
    QStackedWidget* stack_;
    std::vector<QString> words_;
    QString who_;
};

} // namespace rodway
