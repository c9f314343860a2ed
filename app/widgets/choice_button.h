#pragma once

#include <QStyleOptionToolButton>
#include <QToolButton>

namespace rodway {

/// One of several buttons of which one is chosen. While it is, it wears the colours of a selection:
/// in dark themes a pressed button looks much like any other.
class ChoiceButton : public QToolButton {
  public:
    explicit ChoiceButton(const QString& text, QWidget* parent = nullptr) : QToolButton(parent) {
        setText(text);
        setCheckable(true);
        setAutoExclusive(true);
    }

  protected:
    void initStyleOption(QStyleOptionToolButton* option) const override {
        QToolButton::initStyleOption(option);
        if (isChecked()) {
            // Styles light a button up: white words on it would be hard to read.
            constexpr int darker_percent = 125;
            option->palette.setColor(
                QPalette::Button,
                option->palette.color(QPalette::Highlight).darker(darker_percent));
            option->palette.setColor(QPalette::ButtonText,
                                     option->palette.color(QPalette::HighlightedText));
        }
    }
};

} // namespace rodway
