package tickover.console;

import java.util.Locale;
import javafx.collections.ListChangeListener;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ListCell;
import javafx.scene.control.ListView;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import tickover.console.model.ConsoleModel;
import tickover.console.model.LeftRounds;
import tickover.console.model.VehicleModel;
import tickover.session.OpenRound;
import tickover.store.KeptVehicle;

/** Picks the vehicle. */
final class VehicleView implements View {
    private final VehicleModel model;
    private final VBox root = new VBox();
    private final TextField search = new TextField();
    private final ListView<KeptVehicle> list;
    private final Label empty = Controls.label("");

    VehicleView(ConsoleModel console) {
        this.model = console.vehicles();
        this.list = new ListView<>(model.shown());
        list.setId("vehicles");
        list.setAccessibleText("Vehicles");
        list.setCellFactory(view -> new Cell());
        list.setPlaceholder(empty);
        list.setOnKeyPressed(
                e -> {
                    if (e.getCode() == KeyCode.ENTER) {
                        choose();
                    }
                });
        list.setOnMouseClicked(
                e -> {
                    if (e.getClickCount() == 2) {
                        choose();
                    }
                });
        prepareSearch();
        VBox.setVgrow(list, Priority.ALWAYS);
        root.getStyleClass().add("page");
        root.getChildren()
                .setAll(
                        Controls.label("Which vehicle stands there?", "huge"),
                        left(model.left()),
                        search,
                        list,
                        tools());
    }

    @Override
    public Node node() {
        return root;
    }

    @Override
    public Node first() {
        return search;
    }

    @Override
    public boolean pressed(KeyEvent e) {
        return false;
    }

    /** What to do about rounds that were broken off; takes no room without one. */
    private static Node left(LeftRounds left) {
        Label words = Controls.label("");
        words.setId("left-words");
        words.setWrapText(true);
        Button in = new Button("_Put it in the log");
        in.setId("left-in");
        in.setOnAction(e -> left.takeIn());
        Button out = new Button("_Leave it out");
        out.setId("left-out");
        out.setOnAction(e -> left.leaveOut());
        VBox box = new VBox(6, words, new FlowPane(10, 6, in, out));
        Runnable show =
                () -> {
                    words.setText(left.words());
                    box.setVisible(!left.all().isEmpty());
                    box.setManaged(!left.all().isEmpty());
                };
        left.all().addListener((ListChangeListener<OpenRound>) c -> show.run());
        show.run();
        return box;
    }

    private void prepareSearch() {
        search.setId("search");
        search.setPromptText("Type part of its name");
        search.setAccessibleText("Search by part of the name");
        search.textProperty().bindBidirectional(model.search());
        search.setOnAction(e -> choose());
        search.setOnKeyPressed(
                e -> {
                    if (e.getCode() == KeyCode.DOWN) {
                        list.requestFocus();
                        list.getSelectionModel().selectFirst();
                        e.consume();
                    }
                });
    }

    private Node tools() {
        Button choose = new Button("Take this vehicle");
        choose.setId("take-vehicle");
        choose.setOnAction(e -> choose());
        Button enter = new Button("Enter a _new vehicle");
        enter.setId("new-vehicle");
        enter.setOnAction(e -> model.enterNew());
        FlowPane bar = new FlowPane(10, 6, choose, enter);
        if (model.offersSimulated()) {
            Button simulated = new Button("Take the _simulated van");
            simulated.setId("simulated-van");
            simulated.setOnAction(e -> model.enterSimulated());
            bar.getChildren().add(simulated);
        }
        Runnable offer =
                () -> {
                    boolean none = model.shown().isEmpty();
                    choose.setDisable(none);
                    Button likely = none ? (Button) bar.getChildren().get(likeliest()) : choose;
                    bar.getChildren().forEach(b -> b.getStyleClass().remove("accent"));
                    likely.getStyleClass().add("accent");
                    String words = likely.getText().replace("_", "");
                    empty.setText(
                            model.whatIfNone()
                                    + " Press Enter to "
                                    + words.substring(0, 1).toLowerCase(Locale.ROOT)
                                    + words.substring(1)
                                    + ".");
                };
        model.shown().addListener((ListChangeListener<KeptVehicle>) c -> offer.run());
        model.search().addListener((o, before, now) -> offer.run());
        offer.run();
        return bar;
    }

    /** Which button Enter stands for where no vehicle is listed. */
    private int likeliest() {
        return model.isFirstSimulated() ? 2 : 1;
    }

    private void choose() {
        KeptVehicle chosen = list.getSelectionModel().getSelectedItem();
        if (chosen == null && !model.shown().isEmpty()) {
            chosen = model.shown().get(0);
        }
        if (chosen == null) {
            model.goOnWithNone();
            return;
        }
        model.choose(chosen.unit());
    }

    /** A vehicle in two lines. */
    private static final class Cell extends ListCell<KeptVehicle> {
        @Override
        protected void updateItem(KeptVehicle vehicle, boolean empty) {
            super.updateItem(vehicle, empty);
            if (empty || vehicle == null) {
                setGraphic(null);
                setAccessibleText("");
                return;
            }
            Label name = Controls.label(vehicle.unit(), "big");
            Label seen = Controls.label(VehicleModel.seen(vehicle), "soft");
            setGraphic(new VBox(name, seen));
            setAccessibleText(vehicle.unit() + ", " + VehicleModel.seen(vehicle));
        }
    }
}
