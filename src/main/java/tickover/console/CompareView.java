package tickover.console;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.function.Consumer;
import javafx.beans.value.ObservableValue;
import javafx.collections.ObservableList;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressIndicator;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.SplitPane;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import tickover.console.model.CompareModel;
import tickover.console.model.CompareState;
import tickover.console.model.ConsoleModel;
import tickover.console.model.FindingsModel;
import tickover.drive.DriveModel;
import tickover.drive.PartWords;
import tickover.store.KeptVisit;

/** One visit against an earlier one: on the drawing, in sentences, part by part. */
final class CompareView implements View {
    private static final double MAP_SHARE = 0.42;
    private static final double CHOICE_SHARE = 0.72;

    private final ConsoleModel console;
    private final CompareModel model;
    private final BorderPane root = new BorderPane();
    private final EngineMap map = new EngineMap();
    private final VBox words = new VBox();
    private final ChoiceBox<KeptVisit> before;
    private final ChoiceBox<KeptVisit> after;
    private final ChoiceBox<String> repaired;
    private final Button report = new Button("Write the _report");
    private boolean showing;

    CompareView(ConsoleModel console) {
        this.console = console;
        this.model = console.compare();
        before = visits("before", "The earlier visit", model.earliers(), model.before());
        after = visits("after", "The later visit", model.laters(), model.after());
        choose(before, model::earlier);
        choose(after, model::later);
        repaired = new ChoiceBox<>(model.parts());
        repaired.setId("repaired");
        repaired.setAccessibleText("What was repaired in between");
        repaired.setConverter(new Spoken<>(PartWords::plain));
        repaired.setMinWidth(0);
        repaired.valueProperty()
                .addListener(
                        (o, was, now) -> {
                            if (now != null && !showing) {
                                model.repaired(now);
                            }
                        });
        words.setMinWidth(0);
        words.setSpacing(8);
        VBox page = new VBox(tools(), words);
        // No choice is wider than the page, whatever a driver had to say.
        for (Region box : List.of(before, after)) {
            box.maxWidthProperty().bind(page.widthProperty().multiply(CHOICE_SHARE));
        }
        page.getStyleClass().add("page");
        page.setMinWidth(0);
        ScrollPane scroll = new ScrollPane(page);
        scroll.setFitToWidth(true);
        SplitPane split = new SplitPane(map, scroll);
        split.setDividerPositions(MAP_SHARE);
        root.setCenter(split);
        model.state().addListener((o, was, now) -> show(now));
        show(model.state().get());
    }

    private static ChoiceBox<KeptVisit> visits(
            String id,
            String name,
            ObservableList<KeptVisit> offered,
            ObservableValue<KeptVisit> chosen) {
        ChoiceBox<KeptVisit> box = new ChoiceBox<>(offered);
        box.setId(id);
        box.setAccessibleText(name);
        box.getStyleClass().add("visits");
        box.setMinWidth(0);
        box.setConverter(new Spoken<>(FindingsModel::words));
        chosen.addListener((o, was, now) -> Controls.select(box, now));
        Controls.select(box, chosen.getValue());
        return box;
    }

    private void choose(ChoiceBox<KeptVisit> box, Consumer<UUID> listener) {
        ObservableValue<KeptVisit> chosen = box == before ? model.before() : model.after();
        box.valueProperty()
                .addListener(
                        (o, was, now) -> {
                            if (now != null && !now.equals(chosen.getValue())) {
                                listener.accept(now.id());
                            }
                        });
    }

    private Region tools() {
        report.setId("write-comparison");
        report.getStyleClass().add("accent");
        report.setOnAction(e -> model.report());
        ProgressIndicator busy = new ProgressIndicator();
        busy.setPrefSize(24, 24);
        busy.visibleProperty().bind(model.busy());
        busy.setAccessibleText("Computing");
        FlowPane bar =
                new FlowPane(
                        10,
                        6,
                        named("Before", before),
                        named("After", after),
                        named("Repaired", repaired),
                        report,
                        busy);
        return bar;
    }

    private static Node named(String words, Node control) {
        HBox box = new HBox(6, FieldSheet.whole(words), control);
        box.setMinWidth(0);
        box.setAlignment(javafx.geometry.Pos.CENTER_LEFT);
        return box;
    }

    @Override
    public Node node() {
        return root;
    }

    @Override
    public Node first() {
        return before.isDisabled() ? report : before;
    }

    @Override
    public boolean pressed(KeyEvent e) {
        return false;
    }

    private void show(CompareState state) {
        showing = true;
        Controls.select(
                repaired, state.repaired().isEmpty() ? CompareModel.NO_REPAIR : state.repaired());
        showing = false;
        boolean any = !state.title().isEmpty();
        List.of(before, after, repaired, report).forEach(n -> n.setDisable(!any));
        map(state);
        words.getChildren().clear();
        if (!any) {
            words.getChildren()
                    .add(
                            Controls.label(
                                    "There are not two visits of this vehicle yet. After the"
                                            + " repair, walk round the engine once more (3"
                                            + " Round): same points, same loads.",
                                    "big"));
            return;
        }
        words.getChildren()
                .addAll(
                        Controls.label(state.title(), "soft"),
                        Controls.label(state.headline(), "big"));
        if (!state.text().isEmpty()) {
            words.getChildren().add(Controls.label(state.text()));
        }
        if (state.news().isEmpty() && !state.repaired().isEmpty()) {
            words.getChildren().add(Controls.label("✓  Nothing new stands out.", "good-words"));
        }
        state.news()
                .forEach(n -> words.getChildren().add(Controls.label("!  New: " + n, "complaint")));
        words.getChildren().add(Controls.label("Part by part, m/s² rms", "head"));
        List<CompareState.Row> rows = new ArrayList<>(state.rows());
        rows.sort((a, b) -> Boolean.compare(!isOwn(a, state), !isOwn(b, state)));
        rows.forEach(r -> words.getChildren().add(row(r, isOwn(r, state))));
        state.unlike().forEach(u -> words.getChildren().add(Controls.label(u, "soft")));
    }

    private static boolean isOwn(CompareState.Row row, CompareState state) {
        return row.part().equals(state.repaired());
    }

    private static Node row(CompareState.Row r, boolean own) {
        Label name =
                Controls.label(
                        sign(r.mark()) + PartWords.plain(r.part()) + (own ? ", repaired" : ""),
                        "head");
        Label figures = Controls.label(r.levels() + "   " + r.change(), "figure");
        VBox box = new VBox(1, name, figures, Controls.label(r.words() + "; " + r.luck()));
        box.setMinWidth(0);
        if (own) {
            box.getStyleClass().add("panel");
        }
        return box;
    }

    private static String sign(CompareState.Mark mark) {
        return switch (mark) {
            case NONE -> "–  ";
            case BETTER -> "↓  ";
            case WORSE -> "↑  ";
        };
    }

    private void map(CompareState state) {
        Map<String, EngineMap.Said> said = new HashMap<>();
        for (CompareState.Row r : state.rows()) {
            EngineMap.Mark mark =
                    switch (r.mark()) {
                        case NONE -> EngineMap.Mark.NONE;
                        case BETTER -> EngineMap.Mark.GOOD;
                        case WORSE -> EngineMap.Mark.SUSPECT;
                    };
            said.put(r.part(), new EngineMap.Said(mark, r.brief()));
        }
        console.vehicle()
                .ifPresent(
                        v ->
                                map.show(
                                        DriveModel.of(v),
                                        said.keySet().stream()
                                                .filter(k -> v.pulley(k).isEmpty())
                                                .filter(k -> !k.startsWith("belt:"))
                                                .sorted()
                                                .toList(),
                                        said));
    }
}
