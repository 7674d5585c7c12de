package dev.splicebook.check.house;

import dev.cel.common.exceptions.CelAttributeNotFoundException;
import dev.cel.common.types.CelType;
import dev.cel.common.types.StructTypeReference;
import dev.cel.common.values.StructValue;
import dev.splicebook.hookup.Fact;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** A fact as an expression sees it; tells the evaluation what was read of it, and what was missing. */
@SuppressWarnings("Immutable") // as far as an expression can see
final class FactValue extends StructValue<String, FactValue> {

    private final Fact fact;
    private final Evaluation evaluation;
    private final Map<String, Object> wrapped = new LinkedHashMap<>();

    FactValue(Fact fact, Evaluation evaluation) {
        this.fact = fact;
        this.evaluation = evaluation;
    }

    /** Itself: an evaluation takes it for the fact wherever it looks behind a value. */
    @Override
    public FactValue value() {
        return this;
    }

    @Override
    public boolean isZeroValue() {
        return false;
    }

    @Override
    public CelType celType() {
        return StructTypeReference.create(fact.kind().toString());
    }

    @Override
    public Object select(String field) {
        Optional<Object> known = find(field);
        if (!fact.kind().fields().containsKey(field)) {
            throw CelAttributeNotFoundException.of(fact.kind() + " has no field " + field);
        }
        if (known.isEmpty()) {
            // one that is only asked whether it is known is not missed
            evaluation.missed(name() + "." + field);
            throw CelAttributeNotFoundException.of(field + " of " + name() + " is not known");
        }
        return known.get();
    }

    @Override
    public Optional<Object> find(String field) {
        Object value = wrapped.get(field);
        if (value == null) {
            value = wrap(fact.fields().get(field));
            if (value == null) {
                return Optional.empty();
            }
            wrapped.put(field, value);
        }
        if (!fact.kind().isName(field) && !(value instanceof FactValue)) {
            evaluation.read(fact, field);
        }
        return Optional.of(value);
    }

    private @Nullable Object wrap(@Nullable Object value) {
        if (value instanceof Fact each) {
            return evaluation.valueOf(each);
        }
        if (value instanceof List<?> list && !list.isEmpty() && list.get(0) instanceof Fact) {
            List<Object> values = new ArrayList<>(list.size());
            list.forEach(each -> values.add(evaluation.valueOf((Fact) each)));
            return values;
        }
        return value;
    }

    private String name() {
        Object ref = fact.fields().get("ref");
        return ref == null ? fact.kind().toString().toLowerCase(Locale.ROOT) : ref.toString();
    }

    /** By fact, so that two of the same are equal. */
    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof FactValue value && value.fact.equals(fact);
    }

    @Override
    public int hashCode() {
        return fact.hashCode();
    }

    /** The facts in a field of a fact. */
    static List<Fact> facts(Fact of, String field) {
        List<Fact> facts = new ArrayList<>();
        if (of.fields().get(field) instanceof List<?> list) {
            list.forEach(each -> facts.add((Fact) each));
        }
        return facts;
    }
}
