using Spectre.Console.Cli;

namespace Tightcold.Cli.Wiring;

/// <summary>Hands the surroundings to the commands.</summary>
internal sealed class Registrar : ITypeRegistrar, ITypeResolver
{
    private readonly Dictionary<Type, Func<object>> makers = [];

    public void Register(Type service, Type implementation) => makers[service] = () => Make(implementation);

    public void RegisterInstance(Type service, object implementation) => makers[service] = () => implementation;

    public void RegisterLazy(Type service, Func<object> factory) => makers[service] = factory;

    public ITypeResolver Build() => this;

    public object? Resolve(Type? type) =>
        type is null ? null
        : makers.TryGetValue(type, out var maker) ? maker()
        : type is { IsAbstract: false, IsInterface: false } && !type.IsGenericTypeDefinition ? Make(type)
        : type.IsGenericType && type.GetGenericTypeDefinition() == typeof(IEnumerable<>)
            ? Array.CreateInstance(type.GetGenericArguments()[0], 0)
        : null;

    private object Make(Type type)
    {
        var constructor = type.GetConstructors()
            .OrderByDescending(candidate => candidate.GetParameters().Length)
            .First();
        return constructor.Invoke([
            .. constructor.GetParameters().Select(parameter => Resolve(parameter.ParameterType)),
        ]);
    }
}
