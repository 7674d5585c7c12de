package dev.splicebook.web;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.core.DefaultParameterNameDiscoverer;
import org.springframework.core.MethodParameter;
import org.springframework.util.StringUtils;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.method.HandlerMethod;
import org.springframework.web.servlet.HandlerInterceptor;

/**
 * Refuses query parameters that an endpoint does not take, as bodies are refused for unknown fields: a misspelt filter
 * would list everything, and a misspelt {@code dryRun} would store. A parameter without a value, and a second one where
 * one belongs, are refused too.
 */
final class QueryNames implements HandlerInterceptor {

    private final Map<HandlerMethod, Map<String, Boolean>> taken = new ConcurrentHashMap<>();

    @Override
    public boolean preHandle(HttpServletRequest request, HttpServletResponse response, Object handler) {
        String query = request.getQueryString();
        if (query != null && handler instanceof HandlerMethod method && Shape.isOurs(method.getBeanType())) {
            Map<String, Boolean> names = taken.computeIfAbsent(method, QueryNames::namesOf);
            List<Fault> faults = faults(query, names);
            if (!faults.isEmpty()) {
                throw Problems.badParameters(faults);
            }
        }
        return true;
    }

    /** The names that an endpoint takes, and whether it takes several values of each. */
    private static Map<String, Boolean> namesOf(HandlerMethod method) {
        Map<String, Boolean> names = new LinkedHashMap<>();
        for (MethodParameter parameter : method.getMethodParameters()) {
            RequestParam asked = parameter.getParameterAnnotation(RequestParam.class);
            if (asked != null) {
                parameter.initParameterNameDiscovery(new DefaultParameterNameDiscoverer());
                String name = StringUtils.hasText(asked.name()) ? asked.name() : parameter.getParameterName();
                names.put(String.valueOf(name), Collection.class.isAssignableFrom(parameter.getParameterType()));
            } else if (parameter.getParameterType() == PageQuery.class) {
                names.put("cursor", false);
                names.put("limit", false);
            }
        }
        return names;
    }

    private static List<Fault> faults(String query, Map<String, Boolean> names) {
        List<Fault> faults = new ArrayList<>();
        Map<String, Long> counts = Arrays.stream(query.split("&", -1))
                .filter(part -> !part.isEmpty())
                .collect(Collectors.groupingBy(
                        part -> decoded(part.split("=", 2)[0]), LinkedHashMap::new, Collectors.counting()));
        counts.forEach((name, count) -> {
            Boolean several = names.get(name);
            if (several == null) {
                faults.add(unknown(name, names.keySet()));
            } else if (!several && count > 1) {
                faults.add(
                        Fault.ofParameter(name, "repeated", name + " is given " + count + " times, and once is read"));
            } else if (isBlank(query, name)) {
                faults.add(Fault.ofParameter(name, "blank", name + " is blank"));
            }
        });
        return faults.size() > Problems.MOST_FAULTS ? faults.subList(0, Problems.MOST_FAULTS) : faults;
    }

    private static Fault unknown(String name, Collection<String> known) {
        String told = Words.shortened(name);
        return Fault.ofParameter(
                told,
                "unknown-parameter",
                "there is no parameter \"" + told + "\" here; "
                        + (known.isEmpty()
                                ? "none is read"
                                : "the nearest are " + String.join(", ", Words.nearest(name, known))));
    }

    private static boolean isBlank(String query, String name) {
        return Arrays.stream(query.split("&", -1))
                .map(part -> part.split("=", 2))
                .filter(part -> decoded(part[0]).equals(name))
                .anyMatch(part -> part.length < 2 || decoded(part[1]).isBlank());
    }

    /** What cannot be decoded is told where the values are read. */
    private static String decoded(@Nullable String text) {
        try {
            return URLDecoder.decode(String.valueOf(text), StandardCharsets.UTF_8);
        } catch (IllegalArgumentException malformed) {
            return String.valueOf(text);
        }
    }
}
