package tickover.cli;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.Function;

/** Builds answers. A number that JSON cannot hold is a mistake of the caller. */
final class Json {
    private Json() {}

    /** Puts a finite number. */
    static void put(JsonObject into, String key, double value) {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException(key + "=" + value + ", need a finite number");
        }
        into.addProperty(key, value);
    }

    /** Puts a number, or leaves the key out where there is none. */
    static void putIfPresent(JsonObject into, String key, OptionalDouble value) {
        if (value.isPresent()) {
            put(into, key, value.getAsDouble());
        }
    }

    /** Makes an array of finite numbers. */
    static JsonArray numbers(List<Double> values) {
        JsonArray array = new JsonArray();
        for (double v : values) {
            if (!Double.isFinite(v)) {
                throw new IllegalArgumentException("value=" + v + ", need a finite number");
            }
            array.add(v);
        }
        return array;
    }

    /** Makes an array of words. */
    static JsonArray words(List<String> values) {
        JsonArray array = new JsonArray();
        values.forEach(array::add);
        return array;
    }

    /** Makes an array of one element per item. */
    static <T> JsonArray array(List<T> items, Function<T, JsonElement> each) {
        JsonArray array = new JsonArray();
        for (T item : items) {
            array.add(each.apply(item));
        }
        return array;
    }
}
