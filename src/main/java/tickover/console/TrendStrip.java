package tickover.console;

import java.time.Duration;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import javafx.scene.layout.Pane;
import javafx.scene.layout.Region;
import javafx.scene.shape.Circle;
import javafx.scene.shape.Line;
import javafx.scene.shape.Rectangle;
import javafx.scene.text.Text;
import tickover.diagnose.LevelBaseline;
import tickover.diagnose.LevelSeries;
import tickover.diagnose.NewestLevel;
import tickover.diagnose.RepairMark;
import tickover.diagnose.SeriesTrend;

/**
 * A part's level over its visits, dB re 1 m/s²: a ring per visit with its standard error, filled
 * since the baseline began, a line at a repair, and a band that scatter would stay below.
 */
final class TrendStrip {
    private static final DateTimeFormatter DAY =
            DateTimeFormatter.ofPattern("d MMM uu", Locale.ENGLISH);

    private static final double LEFT_EMS = 3.6;
    private static final double BOTTOM_EMS = 1.8;
    private static final double MARGIN = 14;
    private static final double RADIUS = 6;
    private static final double LEAST_SPAN_DB = 6;
    private static final double STEP_DB = 3;

    private final Pane pane = new Pane();
    private SeriesTrend shown;

    TrendStrip() {
        pane.getStyleClass().add("sketch");
        pane.setMinHeight(180);
        pane.setMinWidth(0);
        pane.setPrefHeight(280);
        pane.widthProperty().addListener(o -> draw());
        pane.heightProperty().addListener(o -> draw());
    }

    Region node() {
        return pane;
    }

    void show(SeriesTrend trend, String words) {
        shown = trend;
        pane.setAccessibleText(words);
        draw();
    }

    /** Shows nothing. */
    void clear() {
        shown = null;
        pane.getChildren().clear();
    }

    private void draw() {
        pane.getChildren().clear();
        if (shown != null && pane.getWidth() > 0 && pane.getHeight() > 0) {
            new Drawing(shown).run();
        }
    }

    private final class Drawing {
        private final SeriesTrend trend;
        private final List<LevelSeries.Point> points;
        private final double em;
        private final LocalDateTime first;
        private final double lengthS;
        private double lowDb = Double.POSITIVE_INFINITY;
        private double highDb = Double.NEGATIVE_INFINITY;

        Drawing(SeriesTrend trend) {
            this.trend = trend;
            this.points = trend.series().points();
            Text letter = text("M");
            this.em = letter.getLayoutBounds().getHeight();
            pane.getChildren().remove(letter);
            first = points.get(0).visit().date();
            lengthS =
                    Math.max(
                            1,
                            Duration.between(first, trend.series().newest().visit().date())
                                    .toSeconds());
            for (LevelSeries.Point p : points) {
                lowDb = Math.min(lowDb, p.levelDb() - p.standardErrorDb());
                highDb = Math.max(highDb, p.levelDb() + p.standardErrorDb());
            }
            trend.baseline()
                    .ifPresent(
                            b -> {
                                lowDb = Math.min(lowDb, b.meanDb());
                                highDb = Math.max(highDb, b.meanDb() + limitDb());
                            });
            double middle = (lowDb + highDb) / 2;
            double half = Math.max(LEAST_SPAN_DB, highDb - lowDb) / 2 + 1;
            lowDb = middle - half;
            highDb = middle + half;
        }

        private double limitDb() {
            return trend.newest().map(NewestLevel::limitDb).orElse(0.0);
        }

        void run() {
            trend.baseline().ifPresent(this::band);
            for (double db = Math.ceil(lowDb / STEP_DB) * STEP_DB; db <= highDb; db += STEP_DB) {
                line(left(), y(db), pane.getWidth() - MARGIN, y(db), "grid-line");
                // Adding zero turns minus zero into zero.
                words(String.format(Locale.ROOT, "%.0f dB", db + 0.0), 6, y(db) + em / 3);
            }
            trend.restart().ifPresent(this::repair);
            LevelSeries.Point before = null;
            for (LevelSeries.Point p : points) {
                boolean now = trend.current().contains(p);
                if (before != null && trend.current().contains(before) == now) {
                    line(x(before), y(before.levelDb()), x(p), y(p.levelDb()), "trend-line");
                }
                double error = p.standardErrorDb();
                line(x(p), y(p.levelDb() - error), x(p), y(p.levelDb() + error), "trend-line");
                Circle ring = new Circle(x(p), y(p.levelDb()), RADIUS);
                ring.getStyleClass().add(now ? "trend-point" : "trend-point-before");
                pane.getChildren().add(ring);
                before = p;
            }
            words(DAY.format(first), left(), pane.getHeight() - em / 2);
            if (points.size() > 1) {
                Text last = text(DAY.format(trend.series().newest().visit().date()));
                last.setX(pane.getWidth() - MARGIN - last.getLayoutBounds().getWidth());
                last.setY(pane.getHeight() - em / 2);
            }
        }

        private void band(LevelBaseline b) {
            Rectangle band =
                    new Rectangle(
                            left(),
                            y(b.meanDb() + limitDb()),
                            Math.max(0, pane.getWidth() - MARGIN - left()),
                            Math.max(1, y(b.meanDb()) - y(b.meanDb() + limitDb())));
            band.getStyleClass().add("trend-band");
            pane.getChildren().add(band);
        }

        private void repair(RepairMark mark) {
            double at = x(mark.at());
            line(at, MARGIN, at, pane.getHeight() - BOTTOM_EMS * em, "trend-repair");
            words("repair", at + 4, MARGIN + em);
        }

        private double left() {
            return LEFT_EMS * em;
        }

        private double x(LevelSeries.Point p) {
            return x(p.visit().date());
        }

        private double x(LocalDateTime at) {
            double afterS = Duration.between(first, at).toMillis() / 1000.0;
            double share = Math.max(0, Math.min(1, afterS / lengthS));
            return left() + RADIUS + share * (pane.getWidth() - left() - MARGIN - 2 * RADIUS);
        }

        private double y(double db) {
            double share = (db - lowDb) / (highDb - lowDb);
            return MARGIN + (1 - share) * (pane.getHeight() - MARGIN - BOTTOM_EMS * em);
        }

        private void line(double x1, double y1, double x2, double y2, String style) {
            Line line = new Line(x1, y1, x2, y2);
            line.getStyleClass().add(style);
            pane.getChildren().add(line);
        }

        private void words(String words, double x, double y) {
            Text text = text(words);
            text.setX(x);
            text.setY(y);
        }

        private Text text(String words) {
            Text text = new Text(words);
            text.getStyleClass().add("text-words");
            pane.getChildren().add(text);
            text.applyCss();
            return text;
        }
    }
}
