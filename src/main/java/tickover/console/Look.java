package tickover.console;

import atlantafx.base.theme.PrimerDark;
import atlantafx.base.theme.PrimerLight;
import javafx.application.Application;
import javafx.scene.Parent;
import javafx.scene.Scene;
import tickover.console.model.Preferences;
import tickover.console.model.Preferences.Theme;

/** Dresses a scene: one of three themes, and text of the size that was asked for. */
final class Look {
    private static final double BASE_TEXT_PIXELS = 15;
    private static final double LARGE_TEXT = 1.5;

    private Look() {}

    static void follow(Scene scene, Preferences preferences) {
        scene.getStylesheets().add(Look.class.getResource("console.css").toExternalForm());
        preferences.theme().addListener((o, before, now) -> dress(scene, preferences));
        preferences.textScale().addListener((o, before, now) -> dress(scene, preferences));
        dress(scene, preferences);
    }

    /** How large ordinary text is, pixels. */
    static double textPixels(Preferences preferences) {
        return BASE_TEXT_PIXELS * preferences.textScale().get();
    }

    /** Whether words are so large that they crowd a usual screen. */
    static boolean isLarge(Preferences preferences) {
        return preferences.textScale().get() >= LARGE_TEXT;
    }

    private static void dress(Scene scene, Preferences preferences) {
        Theme theme = preferences.theme().get();
        Application.setUserAgentStylesheet(
                theme == Theme.DARK
                        ? new PrimerDark().getUserAgentStylesheet()
                        : new PrimerLight().getUserAgentStylesheet());
        // The scene's own colour costs less than that of a region as large, frame by frame.
        scene.setFill(Paint.of(theme).ground());
        Parent root = scene.getRoot();
        root.getStyleClass().removeAll("light", "dark", "sunlight");
        root.getStyleClass()
                .add(
                        switch (theme) {
                            case LIGHT -> "light";
                            case DARK -> "dark";
                            case SUNLIGHT -> "sunlight";
                        });
        root.getStyleClass().remove("large");
        if (isLarge(preferences)) {
            root.getStyleClass().add("large");
        }
        root.setStyle("-fx-font-size: " + textPixels(preferences) + "px;");
    }
}
