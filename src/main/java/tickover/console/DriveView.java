package tickover.console;

import javafx.beans.property.IntegerProperty;
import javafx.beans.property.SimpleIntegerProperty;
import javafx.collections.FXCollections;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.SplitPane;
import javafx.scene.control.ToggleButton;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.VBox;
import tickover.console.model.ConsoleModel;
import tickover.console.model.DriveDraft;
import tickover.console.model.DriveWords;
import tickover.console.model.Screen;

/** Enters a vehicle's drive: a sketch to click on, and the same as fields to type in. */
final class DriveView implements View {
    private final ConsoleModel console;
    private final DriveDraft draft;
    private final BorderPane root = new BorderPane();
    private final DriveSketch sketch;
    private final DriveFields fields;
    private final VBox outcome = new VBox();

    DriveView(ConsoleModel console) {
        this.console = console;
        this.draft = console.drive();
        this.sketch = new DriveSketch(draft, console.preferences());
        IntegerProperty belt = new SimpleIntegerProperty(0);
        sketch.belt().bind(belt);
        outcome.getStyleClass().add("panel");
        this.fields = new DriveFields(console, belt);
        VBox right = new VBox(fields.node(), outcome);
        right.getStyleClass().add("page");
        ScrollPane scroll = new ScrollPane(right);
        scroll.setFitToWidth(true);
        BorderPane beside = new BorderPane(sketch);
        beside.setBottom(sketchTools());
        // With large text the tools would leave no room for the sketch: it scrolls then.
        ScrollPane left = new ScrollPane(beside);
        left.setFitToWidth(true);
        left.setFitToHeight(true);
        SplitPane split = new SplitPane(left, scroll);
        split.setDividerPositions(0.42);
        root.setTop(tools());
        root.setCenter(split);
        draft.outcome().addListener((o, before, now) -> tell());
        tell();
    }

    @Override
    public Node node() {
        return root;
    }

    @Override
    public Node first() {
        return fields.first();
    }

    private Node tools() {
        Button save = new Button("_Save drive");
        save.setId("save-drive");
        save.getStyleClass().add("accent");
        save.setTooltip(Controls.tip("Ctrl+S"));
        save.setOnAction(e -> save());
        Button undo = new Button("_Undo");
        undo.setTooltip(Controls.tip("Ctrl+Z"));
        undo.setOnAction(e -> draft.undo());
        Button redo = new Button("_Redo");
        redo.setTooltip(Controls.tip("Ctrl+Y"));
        redo.setOnAction(e -> draft.redo());
        ChoiceBox<String> sisters = new ChoiceBox<>();
        sisters.setId("sisters");
        sisters.setAccessibleText("Copy engine and drive of a sister vehicle");
        sisters.setOnShowing(
                e ->
                        sisters.setItems(
                                FXCollections.observableArrayList(console.vehicles().sisters())));
        sisters.getSelectionModel()
                .selectedItemProperty()
                .addListener(
                        (o, before, now) -> {
                            if (now != null) {
                                console.vehicles().copyDriveFrom(now);
                            }
                        });
        Label copy = new Label("Copy from sister");
        copy.setLabelFor(sisters);
        Button print = new Button("Routing sketch to _print");
        print.setId("routing-sketch");
        print.setOnAction(e -> console.keepRoutingSketch());
        FlowPane bar = new FlowPane(10, 6, save, undo, redo, copy, sisters, print);
        bar.getStyleClass().add("page");
        bar.setAlignment(Pos.CENTER_LEFT);
        return bar;
    }

    private void save() {
        // A field hands over what is typed in it when it is left.
        Node typing = root.getScene() == null ? null : root.getScene().getFocusOwner();
        root.requestFocus();
        if (!console.saveDrive(() -> console.go(Screen.ROUND)) && typing != null) {
            typing.requestFocus();
        }
    }

    @Override
    public boolean pressed(KeyEvent e) {
        if (!e.isShortcutDown()) {
            return false;
        }
        if (e.getCode() == KeyCode.S) {
            save();
        } else if (e.getCode() == KeyCode.Z) {
            draft.undo();
        } else if (e.getCode() == KeyCode.Y) {
            draft.redo();
        } else {
            return false;
        }
        return true;
    }

    private Node sketchTools() {
        ToggleButton route = new ToggleButton("_Lead the belt");
        route.setId("route");
        route.selectedProperty().bindBidirectional(sketch.routing());
        Label help = Controls.label("", "soft");
        Runnable words =
                () ->
                        help.setText(
                                sketch.routing().get()
                                        ? "Click the pulleys in the order in which the belt touches"
                                                + " them. Click one again to take the belt off it."
                                        : "Click an empty place to put a pulley there; drag it, or"
                                                + " move it with the arrow keys (Shift: 1 mm)."
                                                + " Lines are 50 mm apart.");
        sketch.routing().addListener((o, before, now) -> words.run());
        words.run();
        VBox box = new VBox(6, route, help);
        box.getStyleClass().add("page");
        return box;
    }

    private void tell() {
        outcome.getChildren().setAll(Controls.label("What this comes to", "head"));
        draft.outcome()
                .get()
                .complaints()
                .forEach(c -> outcome.getChildren().add(Controls.label("✗ " + c, "complaint")));
        DriveWords.of(draft.outcome().get(), console.preferences().units().get())
                .forEach(w -> outcome.getChildren().add(Controls.label(w)));
    }
}
