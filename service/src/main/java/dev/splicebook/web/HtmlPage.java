package dev.splicebook.web;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.InvalidMediaTypeException;
import org.springframework.http.MediaType;
import org.springframework.web.util.HtmlUtils;

/** A plain page that a phone can show, for what explains itself: problems, rules. All text is escaped here. */
public final class HtmlPage {

    private static final String HEAD = """
            <!doctype html>
            <html lang="en-GB">
            <head>
            <meta charset="utf-8">
            <meta name="viewport" content="width=device-width, initial-scale=1">
            <title>%s</title>
            <style>
            body { font: 1rem/1.5 system-ui, sans-serif; max-width: 42rem; margin: 1rem auto; padding: 0 1rem; color: #1b1b1b; background: #fff; }
            pre { overflow-x: auto; padding: .75rem; background: #f2f2ee; }
            code { font-family: ui-monospace, monospace; }
            h1 { font-size: 1.4rem; } h2 { font-size: 1.1rem; }
            </style>
            </head>
            <body>
            <h1>%s</h1>
            """;

    private final StringBuilder html;

    public HtmlPage(String title) {
        String escaped = HtmlUtils.htmlEscape(title);
        html = new StringBuilder(HEAD.formatted(escaped, escaped));
    }

    public HtmlPage heading(String text) {
        html.append("<h2>").append(HtmlUtils.htmlEscape(text)).append("</h2>\n");
        return this;
    }

    public HtmlPage paragraph(String text) {
        html.append("<p>").append(HtmlUtils.htmlEscape(text)).append("</p>\n");
        return this;
    }

    /** Text shown letter by letter, like JSON. */
    public HtmlPage code(String text) {
        html.append("<pre><code>").append(HtmlUtils.htmlEscape(text)).append("</code></pre>\n");
        return this;
    }

    public HtmlPage items(List<String> texts) {
        html.append("<ul>\n");
        texts.forEach(
                text -> html.append("<li>").append(HtmlUtils.htmlEscape(text)).append("</li>\n"));
        html.append("</ul>\n");
        return this;
    }

    /** A link with a note behind it; the address is one of this service. */
    public HtmlPage link(String address, String text, String note) {
        html.append("<p><a href=\"")
                .append(HtmlUtils.htmlEscape(address))
                .append("\">")
                .append(HtmlUtils.htmlEscape(text))
                .append("</a> ")
                .append(HtmlUtils.htmlEscape(note))
                .append("</p>\n");
        return this;
    }

    /** Whether an Accept header asks for HTML by name, as browsers do. */
    public static boolean isWanted(@Nullable String accept) {
        if (accept == null) {
            return false;
        }
        try {
            return MediaType.parseMediaTypes(accept).stream()
                    .anyMatch(type -> type.equalsTypeAndSubtype(MediaType.TEXT_HTML));
        } catch (InvalidMediaTypeException unreadable) {
            return false;
        }
    }

    /** The whole page. */
    @Override
    public String toString() {
        return html + "</body>\n</html>\n";
    }
}
